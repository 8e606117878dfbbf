#include "sequencer/numbers/mesh_study.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

// Roache's factors: 1.25 where three or more meshes showed the order, 3 where it is only assumed.
constexpr double factor_observed = 1.25;
constexpr double factor_assumed = 3;
// Below this order steps shrink too slowly to be extrapolated: judgement.
constexpr double least_order = 0.5;
// Steps below this share of the value are rounding and the tolerance of the solver.
constexpr double rounding = 1e-10;
constexpr int most_rounds = 60;

// Solves |step_coarse / step_fine| = r_fine^p (r_coarse^p - 1)/(r_fine^p - 1) for p, with r the ratios of sizes of
// neighbouring levels (Celik et al., eq. 5 with steps of one sign), by bisection: the right side rises with p.
double observed_order(double ratio_of_steps, double r_coarse, double r_fine) {
  const auto right = [&](double p) {
    return std::pow(r_fine, p) * (std::pow(r_coarse, p) - 1) / (std::pow(r_fine, p) - 1);
  };
  double low = 1e-3, high = 12;
  if (right(low) >= ratio_of_steps) return 0;
  for (int i = 0; i < most_rounds; ++i) {
    const double middle = 0.5 * (low + high);
    (right(middle) < ratio_of_steps ? low : high) = middle;
  }
  return low;
}

}  // namespace

MeshStudy study_meshes(const std::vector<MeshLevel>& levels, double theory) {
  assert(levels.size() >= 2);
  const MeshLevel &fine = levels[levels.size() - 1], &middle = levels[levels.size() - 2];
  assert(middle.size > fine.size && fine.size > 0);
  MeshStudy s;
  s.value = fine.value;
  const double fine_step = fine.value - middle.value;
  const double r_fine = middle.size / fine.size;
  const auto extrapolate = [&](double order, double factor) {
    const double further = fine_step / (std::pow(r_fine, order) - 1);
    s.order = order;
    s.value = fine.value + further;
    s.plus_minus = factor * std::abs(further);
  };
  if (levels.size() == 2) {
    s.approach = Approach::assumed;
    extrapolate(theory, factor_assumed);
    s.value = fine.value;
    return s;
  }
  const MeshLevel& coarse = levels[levels.size() - 3];
  const double coarse_step = middle.value - coarse.value;
  const double size = std::max({std::abs(fine.value), std::abs(middle.value), std::abs(coarse.value)});
  if (std::max(std::abs(fine_step), std::abs(coarse_step)) <= rounding * size) return s;
  const auto waver = [&] {
    s.approach = Approach::wavering;
    s.plus_minus = std::max(std::abs(fine_step), std::abs(coarse_step));
  };
  if (fine_step == 0 || coarse_step / fine_step <= 0) {
    waver();
    return s;
  }
  const double order = observed_order(coarse_step / fine_step, coarse.size / middle.size, r_fine);
  if (order < least_order) {
    waver();
    return s;
  }
  s.approach = Approach::settling;
  extrapolate(std::min(order, theory), factor_observed);
  s.order = order;
  return s;
}

}  // namespace evenpull::inline sequencer
