// Grillages: beams that cross and carry a load across their plane together, as spars and ribs do. Through the whole
// solver; the answers by the force method, beams meeting in a vertical force only (no twist is passed on), as handbooks
// of grillages take them. Derived here.
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"
#include "tests/support/cloth_patch.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Dense>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double e = published::tube_modulus, g = 26e9;
// Force tolerance of the solver, and the torsion of the members, a millionth of a tube's: see tube().
constexpr double tolerance = 1e-5;

// Next to no torsion: members that cross at a joint turn together, and only so they do not twist one another.
PatchBeam tube(double diameter) {
  PatchBeam b{published::tube_section(diameter, 0.9e-3), e, g};
  b.section.torsion *= 1e-6;
  return b;
}

// A joint on a support: held up and down, and from moving or turning in the plane, which nothing here does.
void support(Patch& p, int body) {
  for (int k : {0, 1, 2, 5}) p.hold_body(body, k);
}

constexpr book::Chapter frame{"Frame"};

void enter(const std::string& check, const std::string& quantity, double published, double ours) {
  frame.number(check, quantity, "force method, derived here", published, ours, tolerance);
}

// Deflection at x of a simple beam of length l under a unit load at a, times EI.
double influence(double x, double a, double l) {
  if (x > a) return influence(l - x, l - a, l);
  const double b = l - a;
  return b * x * (l * l - b * b - x * x) / (6 * l);
}

}  // namespace

TEST_CASE("two crossing beams share a load in proportion to EI/L^3") {
  const double la = 0.8, lb = 0.5, load = 50;
  const PatchBeam along = tube(12.7e-3), across = tube(9.525e-3);
  Patch p{PatchCloth{}};
  const int middle = p.add_body({0, 0, 0});
  for (const Eigen::Vector3d& end : {Eigen::Vector3d(0, -la / 2, 0), Eigen::Vector3d(0, la / 2, 0),
                                     Eigen::Vector3d(-lb / 2, 0, 0), Eigen::Vector3d(lb / 2, 0, 0)}) {
    const int body = p.add_body(end);
    support(p, body);
    p.add_beam(middle, body, end.x() == 0 ? along : across);
  }
  PatchSolver s(p);
  s.load_body(middle, {0, 0, load}, {0, 0, 0});
  s.solve();
  const double ka = 48 * e * along.section.inertia_up / std::pow(la, 3),
               kb = 48 * e * across.section.inertia_up / std::pow(lb, 3);
  const std::string check = "Two crossing beams";
  enter(check, "deflection [mm]", 1e3 * load / (ka + kb), 1e3 * s.body_translation(middle).z());
  enter(check, "moment in the long beam [N m]", load * ka / (ka + kb) * la / 4, std::abs(s.beam_forces(0).bend_up[0]));
  enter(check, "moment in the short beam [N m]", load * kb / (ka + kb) * lb / 4, std::abs(s.beam_forces(2).bend_up[0]));
}

TEST_CASE("three beams over three share their loads as the force method says") {
  // Joints (i, j) at quarter points, i of the beams along y, j of those across. Unknown: the force X_ij that the beams
  // along hand to those across. Along i: w = F_a (P - X); across j: w = F_b X; equal at each joint.
  const double la = 1.2, lb = 0.6;
  const PatchBeam along = tube(25.4e-3), across = tube(12.7e-3);
  const auto number = [](int i, int j) { return 3 * i + j; };
  Eigen::MatrixXd fa = Eigen::MatrixXd::Zero(9, 9), fb = fa;
  Eigen::VectorXd load(9);
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) {
      load[number(i, j)] = 20 + 7 * i - 4 * j;  // N, uneven so that no symmetry hides a mistake
      for (int k = 0; k < 3; ++k) {
        fa(number(i, j), number(i, k)) =
            influence((j + 1) * la / 4, (k + 1) * la / 4, la) / (e * along.section.inertia_up);
        fb(number(i, j), number(k, j)) =
            influence((i + 1) * lb / 4, (k + 1) * lb / 4, lb) / (e * across.section.inertia_up);
      }
    }
  const Eigen::VectorXd handed = (fa + fb).fullPivLu().solve(fa * load), deflection = fb * handed;
  // Moment at the middle of a simple beam under three forces at its quarter points.
  const auto middle_moment = [](double l, double f1, double f2, double f3) {
    return l / 4 * (0.5 * f1 + f2 + 0.5 * f3);
  };

  Patch p{PatchCloth{}};
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) p.add_body({(i + 1) * lb / 4, (j + 1) * la / 4, 0});
  int beams = 0, middle_along = -1, middle_across = -1;
  const auto chain = [&](const std::vector<int>& bodies, const PatchBeam& beam, int& third) {
    for (std::size_t k = 0; k + 1 < bodies.size(); ++k, ++beams) {
      p.add_beam(bodies[k], bodies[k + 1], beam);
      if (k == 2) third = beams;  // begins at the middle joint
    }
  };
  const auto end = [&](double x, double y) {
    const int body = p.add_body({x, y, 0});
    support(p, body);
    return body;
  };
  for (int i = 0; i < 3; ++i) {
    int third = -1;
    const double x = (i + 1) * lb / 4;
    const int root = end(x, 0), tip = end(x, la);
    chain({root, number(i, 0), number(i, 1), number(i, 2), tip}, along, third);
    if (i == 1) middle_along = third;
  }
  for (int j = 0; j < 3; ++j) {
    int third = -1;
    const double y = (j + 1) * la / 4;
    const int front = end(0, y), back = end(lb, y);
    chain({front, number(0, j), number(1, j), number(2, j), back}, across, third);
    if (j == 1) middle_across = third;
  }
  PatchSolver s(p);
  for (int n = 0; n < 9; ++n) s.load_body(n, {0, 0, load[n]}, {0, 0, 0});
  s.solve();
  const std::string check = "Three beams over three";
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      enter(check, "deflection of joint " + std::to_string(i + 1) + "," + std::to_string(j + 1) + " [mm]",
            1e3 * deflection[number(i, j)], 1e3 * s.body_translation(number(i, j)).z());
  const Eigen::VectorXd kept = load - handed;
  enter(check, "moment in the middle of the middle beam along [N m]",
        std::abs(middle_moment(la, kept[3], kept[4], kept[5])), std::abs(s.beam_forces(middle_along).bend_up[0]));
  enter(check, "moment in the middle of the middle beam across [N m]",
        std::abs(middle_moment(lb, handed[1], handed[4], handed[7])),
        std::abs(s.beam_forces(middle_across).bend_up[0]));
}
