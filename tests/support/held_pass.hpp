// A pass on paper: all cloth of the zone held at one temperature, wherever it lies (docs/model.md, section 3). What an iron
// gives is solver/heat/pass_heat.hpp; for tests that are about equilibrium and not about heat this one is simple and exact.
#pragma once

#include "solver/cloth/shrink.hpp"
#include "solver/equilibrium/model.hpp"
#include "solver/heat/pass_heat.hpp"

namespace evenpull::check {

/// s_end = max(s_old, (1 - phi) s_old + phi s_inf (1 - N/Nc)).
inline PassLine held_line(const ShrinkState& s, int direction, double dose) {
  if (s.limit_pull[direction] <= 0) return {};
  const double a = dose * s.free_shrink[direction];
  return {1 - dose, a, a / s.limit_pull[direction], s.limit_pull[direction]};
}

/// Both yarns at a true temperature [K] with a dose 0 < phi <= 1.
inline PassHeat held_pass(const Model& m, double temperature, double dose) {
  const ShrinkState s = shrink_at(m.the_case.cloth, m.compliance, temperature);
  PassHeat p;
  for (int d = 0; d < 2; ++d) p.open.lines[d] = held_line(s, d, dose);
  return p;
}

}  // namespace evenpull::check
