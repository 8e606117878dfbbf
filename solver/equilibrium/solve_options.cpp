#include "solver/equilibrium/solve_options.hpp"

#include "solver/cloth/shrink.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {

SolveOptions usual_options(const Model& m) {
  // The numbers of SolveOptions are those of a panel 1.8 m long and 0.35 m deep in cloth that is called loose below 10 N/m.
  constexpr double nominal_pull = 10, nominal_length = 1.122;
  const double pull = m.loose_pull / nominal_pull, length = std::sqrt(m.cloth_area) / nominal_length;
  SolveOptions a;
  a.smoothing = m.softest * m.loose_pull * m.loose_pull;
  a.tension_tolerance *= pull;
  a.force_tolerance *= pull * length;
  a.sliding_width *= length;
  return a;
}

double certified_tension(const Case& c) {
  // Judgement: what the pull of usual cloth, 200 to 400 N/m after its coolest stage, has always been certified to, and of
  // other pulls no less than the smaller share of these and no more than the larger.
  constexpr double usual = 2, least_share = 0.005, most_share = 0.01;
  if (c.cloth.curve.size() < 2) return usual;
  const Eigen::Matrix3d give =
      compliance(c.cloth.stiffness.warp, c.cloth.stiffness.fill, c.cloth.poisson, c.cloth.shear);
  for (const Stage& stage : c.stages) {
    const ShrinkState s = shrink_at(c.cloth, give, stage.temperature);
    const double pull = std::hypot(s.fixed_length_pull[0], s.fixed_length_pull[1]) / std::sqrt(2.0);
    if (pull > 0) return std::clamp(usual, least_share * pull, most_share * pull);
  }
  return usual;
}

SolveOptions certified_options(const Model& m) {
  const double bound = certified_tension(m.the_case);
  SolveOptions a = usual_options(m);
  a.start_smoothing = a.smoothing;
  // Loose cloth all over has the gap 2 beta area, so its bound is sqrt(4 beta / softest).
  a.smoothing = std::min(a.smoothing, share_of_cloth * m.softest * bound * bound / 4);
  // Friction that is off its law by some force adds that force times the slip of the step to the gap, and friction that
  // sticks its threshold times the sliding width: on a small panel with 10 N a station and slips of a millimetre the
  // usual 2e-3 and 2e-7 m would use up the share.
  a.friction_tolerance *= 0.1;
  a.sliding_width *= 0.25;
  a.tension_bound = bound;
  return a;
}

}  // namespace evenpull::inline solver
