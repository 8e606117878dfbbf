// The round membrane under pressure in finite elements, read off where the mesh converges with second order: pulls at
// the middle of quads, extrapolated to the centre and to the rim.
#pragma once

#include "tests/published/quarter_disc.hpp"
#include "tests/published/round_membrane_ode.hpp"
#include "tests/published/starting_pull.hpp"

#include <cmath>

namespace evenpull::published {

/// Clamped flat without pull; q = p a/Et; 3 n^2 quads on a quarter.
inline RoundMembrane inflate_disc(double poisson, double q, Pressure how, int n) {
  constexpr double radius = 0.15, stiffness = 100e3;  // m, N/m
  const double pressure = q * stiffness / radius;
  QuarterDisc disc(check::isotropic(stiffness, poisson), radius, n);
  check::PatchSolver s(disc.patch);
  const double unit_rise = radius * std::cbrt(q);
  const double unit_pull = stiffness * std::pow(q, 2.0 / 3.0);
  const auto& nodes = disc.patch.nodes();
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const double r = nodes[i].norm() / radius;
    if (r < 1 - 1e-9) s.guess_node(static_cast<int>(i), {0, 0, 0.65 * unit_rise * (1 - r * r)});
  }
  guess_pull(s, 0.4 * unit_pull);
  if (how == Pressure::on_undeformed_plane) {
    for (const auto& quad : disc.patch.quads()) {
      const Eigen::Vector3d a = nodes[quad[2]] - nodes[quad[0]], b = nodes[quad[3]] - nodes[quad[1]];
      for (int k : quad) s.load_node(k, {0, 0, 0.25 * pressure * 0.5 * std::abs(a.x() * b.y() - a.y() * b.x())});
    }
    s.solve();
  } else {
    s.solve_under_pressure(pressure);
  }
  return {s.displacement(0).z() / unit_rise, disc.pull_at_centre(s) / unit_pull, disc.pull_at_rim(s) / unit_pull};
}

}  // namespace evenpull::published
