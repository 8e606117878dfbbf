// A rib that grows thinner towards its end, clamped at both ends and pulled evenly in the panel's plane. The thin end is
// stressed most, so stress must be read there and not at the middle of the last piece (docs/model.md, section 7).
// Derived here: with EI = EI0 (1 - t x), x from 0 to 1 along the rib, M = A + B x + q L^2 x^2/2 and no slope and no
// deflection at x = 1: A J0 + B J1 + q L^2/2 J2 = 0 and A J1 + B J2 + q L^2/2 J3 = 0, with
// J_n = integral of x^n/(1 - t x): J0 = -ln(1 - t)/t, J_n = (J_(n-1) - 1/n)/t.
#include "tests/published/small_frame.hpp"
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::published;

namespace {

// A wooden end rib, invented.
constexpr double length = 0.4, width = 12.7e-3, thick = 38e-3, thin = 7.6e-3, pull = 900, modulus = 10.8e9;

double thickness(double x) { return thick + (thin - thick) * x; }

Section section(double x) {
  SectionShape s;
  s.kind = SectionShape::Kind::bar;
  s.width = width;
  return without_shear(section_of(s, thickness(x)));
}

struct EndStress {
  double thick_end, thin_end;
};

EndStress closed_form() {
  const double t = 1 - thin / thick;
  double j[4] = {-std::log(1 - t) / t, 0, 0, 0};
  for (int n = 1; n < 4; ++n) j[n] = (j[n - 1] - 1.0 / n) / t;
  const double load = pull * length * length / 2, det = j[0] * j[2] - j[1] * j[1];
  const double a = -load * (j[2] * j[2] - j[1] * j[3]) / det, b = -load * (j[0] * j[3] - j[1] * j[2]) / det;
  const auto stress = [](double moment, const Section& s) { return std::abs(moment) * s.reach_flat / s.inertia_flat; };
  return {stress(a, section(0)), stress(a + b + load, section(1))};
}

// Pieces with the section at their middle, pull lumped at the joints when they move and spread when stress is read: as
// in a panel.
EndStress in_pieces(int n) {
  SmallFrame f;
  Eigen::VectorXd load = Eigen::VectorXd::Zero(6 * (n + 1));
  for (int i = 0; i <= n; ++i) {
    f.joints.push_back({length * i / n, 0, 0});
    load[6 * i + 1] = pull * length / n;
  }
  for (int i = 0; i < n; ++i) f.add(i, i + 1, section((i + 0.5) / n), modulus, modulus / 20, Eigen::Vector3d::UnitZ());
  const Eigen::VectorXd u = f.solve(load, {0, n});
  const auto forces = [&](int piece) {
    const BeamLoad even{{0, pull, 0}, {0, pull, 0}};
    return beam_forces(f.pieces[static_cast<std::size_t>(piece)].shape, u.segment<12>(6 * piece), 0, even);
  };
  return {end_stress(section(0), forces(0), 0), end_stress(section(1), forces(n - 1), 1)};
}

}  // namespace

TEST_CASE("the stress at the ends of a tapered rib settles with the second order") {
  std::vector<MeshLevel> at_thick, at_thin;
  for (int n : {16, 32, 64}) {  // by 8 the thin end, five times thinner, is not yet on its way
    const EndStress s = in_pieces(n);
    at_thick.push_back({1.0 / n, s.thick_end / 1e6});
    at_thin.push_back({1.0 / n, s.thin_end / 1e6});
  }
  const EndStress exact = closed_form();
  // A tenth of a percent: an extrapolation over pieces that lump the pull.
  book::enter({.chapter = "Frame",
               .check = "Tapered rib clamped at both ends under an even pull",
               .quantity = "stress at the thin end [MPa]",
               .source = "derived here",
               .published = exact.thin_end / 1e6,
               .tolerance = 1e-3,
               .levels = at_thin,
               .theory = 2,
               .least_order = 1.8});
  book::enter({.chapter = "Frame",
               .check = "Tapered rib clamped at both ends under an even pull",
               .quantity = "stress at the thick end [MPa]",
               .source = "derived here",
               .published = exact.thick_end / 1e6,
               .tolerance = 1e-3,
               .levels = at_thick,
               .theory = 2,
               .least_order = 1.8});
}
