#include "solver/cloth/pass_line.hpp"

namespace evenpull::inline solver {

LoadLine load_line(const PassLine& pass, double shrink_so_far, double creep_share) {
  LoadLine l;
  l.a = pass.kept * shrink_so_far + pass.a;
  l.b = pass.b;
  l.creep = creep_share;
  l.creep_pull = pass.creep_pull;
  if (pass.b <= 0) return {shrink_so_far, 0, 0, 0};
  return l;
}

}  // namespace evenpull::inline solver
