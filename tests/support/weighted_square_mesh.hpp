// The square of a coupon on a mesh of the solver's own membrane: a second way to the sag under a weight, in which the
// cloth stretches as its law has it.
#pragma once

#include "tests/support/cloth_patch.hpp"
#include "tests/support/tight_cloth.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::check {

/// Usual woven cloth: shear a twentieth of the stiffness.
inline PatchCloth woven(double stiffness) { return {stiffness, stiffness, 0.2, stiffness / 20, 0}; }

/// Sag [m] of a square under a force [N] on a rigid disc; `fineness` 2 is some 400 quads.
inline double sag_on_mesh(double side, double radius, double pull, const PatchCloth& cloth, double force,
                          int fineness) {
  constexpr double pi = 3.14159265358979323846;
  const int around = 16 * fineness, rows = 6 * fineness;
  Patch p(cloth);
  p.add_ring(rows, around, [&](double u, double v) -> Eigen::Vector3d {
    const double t = pi * (2 * v - 0.25);  // lines of the mesh meet the corners
    const double edge = 0.5 * side / std::max(std::abs(std::cos(t)), std::abs(std::sin(t)));
    const double r = radius * std::pow(edge / radius, u);
    return {r * std::cos(t), r * std::sin(t), 0};
  });
  const int disc = p.add_body({0, 0, 0});
  for (const int k : {0, 1, 3, 4, 5}) p.hold_body(disc, k);
  for (int j = 0; j < around; ++j) {
    p.glue(j, disc);
    for (int k = 0; k < 3; ++k) p.hold_node(rows * around + j, k);
  }
  PatchSolver s(p, fine_forces());
  s.shrink(pull * (1 - cloth.poisson) / cloth.warp, pull * (1 - cloth.poisson) / cloth.fill);
  s.load_body(disc, {0, 0, force}, {0, 0, 0});
  s.solve();
  return s.body_translation(disc).z();
}

}  // namespace evenpull::check
