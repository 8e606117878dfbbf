// Beams whose ends turn against their joints on springs, between pinned and clamped; alpha = k L/(EI) with the spring's
// moment per radian k. Slope-deflection, derived here: an even load q bends the ends by M = q L^2/12 alpha/(alpha + 2), the
// middle sinks by 5 q L^4/(384 EI) - M L^2/(8 EI), and the column between two such ends buckles at P = u^2 EI/L^2,
// tan(u/2) = -u/alpha, u between pi and 2 pi.
#include "solver/frame/joint_turn.hpp"
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Eigenvalues>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double mm = 1e-3;
constexpr book::Chapter frame{"Frame"};
const std::string check = "Beam on turning joints", source = "slope-deflection, derived here";

struct Turning {
  double alpha, end_moment, sag, load;  // M_end/(q L^2), w/w pinned, P/P Euler
};
const Turning turning[] = {{0, 0, 1, 1},
                           {0.2, 0.007576, 0.9273, 1.0794},
                           {0.5, 0.016667, 0.8400, 1.1927},
                           {1, 0.027778, 0.7333, 1.3671},
                           {2, 0.041667, 0.6000, 1.6681},
                           {4, 0.055556, 0.4667, 2.1234},
                           {8, 0.066667, 0.3600, 2.6778},
                           {10, 0.069444, 0.3333, 2.8540},
                           {25, 0.077160, 0.2593, 3.4383},
                           {100, 0.081699, 0.2157, 3.8449}};

struct Tube {
  double length = 0.3;
  Section section = tube_section(12.7 * mm, 0.9 * mm);
  double bending() const { return tube_modulus * section.inertia_up; }

  EndTurn end(double alpha) const {
    const double k = alpha * bending() / length;
    return {k, k};
  }
  StraightLine line(int elements, double alpha) const {
    StraightLine l(length, elements, section, tube_modulus);
    l.let_ends_turn(end(alpha), end(alpha));
    return l;
  }
  std::vector<int> clamped(const StraightLine& l) const { return {0, 1, l.unknowns() - 2, l.unknowns() - 1}; }
};

std::string at(double alpha) { return "alpha " + std::to_string(alpha).substr(0, alpha < 1 ? 3 : alpha < 10 ? 1 : 3); }

}  // namespace

TEST_CASE("an even load bends the ends of a beam by what their joints take") {
  const Tube tube;
  const double q = 400;
  for (const Turning& t : turning) {
    BeamShape b;
    b.from = {0, 0, 0}, b.to = {tube.length, 0, 0}, b.up = Eigen::Vector3d::UnitZ();
    b.section = tube.section;
    b.youngs_modulus = tube_modulus;
    b.turn_from = b.turn_to = tube.end(t.alpha);
    const Eigen::Vector3d up = q * Eigen::Vector3d::UnitZ();
    const BeamForces f = beam_forces(b, BeamVector::Zero(), 0, {up, up});
    const double unit = q * tube.length * tube.length;
    if (t.alpha > 0)
      frame.number(check, at(t.alpha) + ": end moment over q L^2", source, t.alpha / (t.alpha + 2) / 12,
                   std::abs(f.bend_up[0]) / unit, 1e-9);
    CHECK(std::abs(f.bend_up[0]) / unit == Approx(t.end_moment).margin(6e-7));
  }
}

TEST_CASE("a beam sags between its pinned and its clamped self as its joints let it") {
  const Tube tube;
  const double q = 400, pinned = 5 * q * std::pow(tube.length, 4) / (384 * tube.bending());
  for (const Turning& t : turning) {
    std::vector<MeshLevel> levels;
    // Load put on the joints in lumps: the moment that belongs on the beam's own ends is missing, to the second order.
    for (int n : {8, 16, 32}) {
      const StraightLine line = tube.line(n, t.alpha);
      const Eigen::VectorXd u = solve_held(line.elastic(), line.lumped_load(q), tube.clamped(line));
      levels.push_back({1.0 / n, std::abs(u[n]) / pinned});
    }
    const double m = t.alpha / (t.alpha + 2) / 12;
    frame.study(check, at(t.alpha) + ": sag over that of pinned ends", source, 1 - m / 8 * 384 / 5, 1e-5, levels,
                {2, 1.8});
    CHECK(1 - m / 8 * 384 / 5 == Approx(t.sag).margin(6e-5));
  }
}

TEST_CASE("a column between turning joints buckles between Euler's pinned and clamped loads") {
  const Tube tube;
  for (const Turning& t : turning) {
    double low = pi, high = 2 * pi;  // tan(u/2) + u/alpha rises from -infinity over this range
    for (int i = 0; i < 200 && t.alpha > 0; ++i) {
      const double u = 0.5 * (low + high);
      (t.alpha * std::sin(u / 2) + u * std::cos(u / 2) > 0 ? low : high) = u;
    }
    const double exact = t.alpha > 0 ? low * low / (pi * pi) : 1;
    const StraightLine line = tube.line(32, t.alpha);
    const std::vector<int> open = free_of(line.unknowns(), tube.clamped(line));
    const Eigen::MatrixXd k = line.elastic()(open, open), g = line.geometric(1.0)(open, open);
    const double load =
        Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd>(k, g, Eigen::EigenvaluesOnly).eigenvalues()[0];
    frame.number(check, at(t.alpha) + ": buckling load over Euler's", source, exact,
                 load * tube.length * tube.length / (tube.bending() * pi * pi), 1e-5);
    CHECK(exact == Approx(t.load).margin(6e-5));
  }
}

TEST_CASE("the give of one rivet between two sheets follows Huth's formula") {
  // 2024 sheet, rivets of 71 GPa [mm/N]. The numbers are the formula worked out by hand.
  struct Row {
    double t1, t2, d, flexibility;
  };
  for (const Row& r : {Row{0.5, 0.5, 2.4, 9.799e-5}, Row{0.5, 0.8, 2.4, 8.843e-5}, Row{0.5, 0.5, 3.2, 8.734e-5},
                       Row{0.8, 0.8, 3.2, 6.588e-5}})
    frame.number("One rivet in single shear",
                 std::to_string(r.t1).substr(0, 3) + " and " + std::to_string(r.t2).substr(0, 3) + " mm, rivet " +
                     std::to_string(r.d).substr(0, 3) + " mm: give [mm/N]",
                 "Huth (1986), the form from memory, constants seen as reprint; worked out by hand", r.flexibility,
                 1e3 * fastener_flexibility(r.t1 * mm, r.t2 * mm, r.d * mm, 72.4e9, 72.4e9, 71e9), 1e-3);
}

TEST_CASE("rivets turn a joint by their distances squared over their give, two groups in series") {
  // Two 12 apart, three at a pitch of 12: sums by hand [mm^2].
  CHECK(square_distances(2, 12 * mm) == Approx(72e-6));
  CHECK(square_distances(3, 24 * mm) == Approx(288e-6));
  CHECK(square_distances(1, 12 * mm) == 0);
  // Pressed rib 50/12 x 0.5 mm, 200 mm long, one rivet through each flange: 800 mm^2/9.80e-5 mm/N = 8.16e6 N mm/rad,
  // alpha 1.775; through a gusset half of it.
  JointMake j;
  j.kind = JointKind::gusset;
  j.fasteners = 2, j.fastener_diameter = 2.4 * mm, j.fastener_spacing = 40 * mm;
  JoinedMember m;
  m.shape.kind = SectionShape::Kind::sheet_rib;
  m.shape.wall = 0.5 * mm;
  m.youngs_modulus = 72.4e9;
  m.bending_up = 4600, m.bending_flat = 158;
  const JointTurn turn = turn_of(j, m);
  frame.number("Gusset of two rivets on a pressed rib 50/12 x 0.5 mm, 200 mm long", "alpha, up and down [1]",
               "Sum r^2/C with Huth's C, worked out by hand", 1.775 / 2, turn.up.usual, 1e-2,
               "by hand the rivets are a little softer than the sheet");
  CHECK(turn.up.low == Approx(turn.up.usual / 2));
  CHECK(turn.up.high == Approx(turn.up.usual * 2));
  CHECK(turn.flat.usual == Approx(0.02));
}
