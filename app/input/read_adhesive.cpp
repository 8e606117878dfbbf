// What holds the cloth: the table [adhesive].
#include "app/input/case_parts.hpp"

namespace evenpull {

Adhesive read_adhesive(const CaseTable& top) {
  Adhesive a;
  if (!top.has("adhesive")) return a;
  const auto t = top.table("adhesive", {"peel", "shear"}, "");
  a.peel =
      t.quantity_if("peel", Quantity::force_per_width,
                    {20, 50e3, "cemented cloth peels at some 2 to 20 lb/in (estimate); its maker says, or a strip"});
  a.shear =
      t.quantity_if("shear", Quantity::stress,
                    {10e3, 30e6, "of a lap, some 30 to 500 psi (estimate); its maker says, or a lap pulled apart"});
  return a;
}

}  // namespace evenpull
