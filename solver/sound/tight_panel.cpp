#include "solver/sound/tight_panel.hpp"

#include "solver/cloth/shrink.hpp"

namespace evenpull::inline solver {
namespace {

constexpr int tries = 4;

}  // namespace

TightPanel tight_panel(Ironing& ironing, double temperature) {
  const Model& m = ironing.model();
  const ShrinkState shrunk = shrink_at(m.the_case.cloth, m.compliance, temperature);
  Mandel pull(shrunk.fixed_length_pull[0], shrunk.fixed_length_pull[1], 0);
  const Covering before = ironing.begin();
  double times = 1;
  for (int t = 1;; ++t, pull *= 0.5, times *= 0.5) {
    const Mandel stretch = m.compliance * pull;
    Covering s = before;
    for (auto& yarns : s.shrink)
      for (int d = 0; d < 2; ++d) yarns[d] = m.looseness[d] + stretch[d];
    try {
      if (ironing.rebalance(s, "tight cloth").outcome == Outcome::settled) return {s, times};
    } catch (const NotConverged&) {
      if (t == tries) throw;
    }
    if (t == tries)
      throw NotConverged("the frame gives way under an eighth of the pull of the cloth", "tight cloth", 0, {},
                         "see what `evenpull plan` says of the frame");
  }
}

}  // namespace evenpull::inline solver
