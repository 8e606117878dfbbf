// The round membrane under pressure in finite elements, read off where the mesh converges with second order: pulls at
// the middle of quads, extrapolated to the centre and to the rim.
#pragma once

#include "tests/published/quarter_disc.hpp"
#include "tests/published/round_membrane_ode.hpp"
#include "tests/published/starting_pull.hpp"
#include "tests/support/book.hpp"

#include <cmath>
#include <string>
#include <vector>

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

/// Three meshes of it: rise, pull at the centre, radial pull at the rim, each made dimensionless as Hencky does.
struct DiscStudy {
  std::vector<MeshLevel> rise, centre, rim;
};

inline DiscStudy study_disc(double poisson, double q, Pressure how) {
  DiscStudy s;
  for (int n : {6, 12, 24}) {
    const RoundMembrane r = inflate_disc(poisson, q, how, n);
    s.rise.push_back({1.0 / n, r.rise});
    s.centre.push_back({1.0 / n, r.centre_pull});
    s.rim.push_back({1.0 / n, r.rim_pull});
  }
  return s;
}

/// The three numbers of a study beside those of somebody's solution.
inline void enter_disc(const std::string& check, const std::string& source, const RoundMembrane& published,
                       double tolerance, const DiscStudy& s, const std::string& note) {
  constexpr book::Chapter cloth{"Cloth"};
  const std::string pull = " N/(Et p^2 a^2)^(1/3)";
  cloth.study(check, "rise w0/(a (pa/Et)^(1/3))", source, published.rise, tolerance, s.rise, {}, note);
  cloth.study(check, "pull at the centre" + pull, source, published.centre_pull, tolerance, s.centre, {}, note);
  cloth.study(check, "radial pull at the rim" + pull, source, published.rim_pull, tolerance, s.rim, {}, note);
}

/// The same against the membrane's own equation at finite slope.
inline void enter_disc_at_finite_slope(const std::string& check, const std::string& source, const RoundMembrane& exact,
                                       const DiscStudy& s, const std::string& note) {
  constexpr book::Chapter cloth{"Cloth"};
  // Extrapolated from three meshes; the finest itself is 4e-4 off.
  constexpr double extrapolated = 1e-4;
  cloth.study(check, "rise at finite slope", source, exact.rise, extrapolated, s.rise, {}, note);
  cloth.study(check, "pull at the centre at finite slope", source, exact.centre_pull, extrapolated, s.centre, {}, note);
  cloth.study(check, "radial pull at the rim at finite slope", source, exact.rim_pull, extrapolated, s.rim, {}, note);
}

}  // namespace evenpull::published
