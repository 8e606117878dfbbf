// The load line at constant temperature worked in part doses (docs/model.md, section 3), on a piece of cloth whose
// edges do not move, through the solver. Derived here. A dose phi takes the shrink s_k to
//   s_(k+1) = a - b N,  a = s_k + phi (s_inf - s_k),  b = phi s_inf/Nc,
// and cloth held at its natural length has C N = s. With D = diag(s_inf/Nc):
//   (C + phi D) N_(k+1) = (1 - phi) C N_k + phi s_inf,
// of which N* = (C + D)^-1 s_inf is the standing point whatever phi is: one direction by itself comes nearer to it by
// (1 - phi)/(1 + phi s_inf/(C Nc)) each time. Shrink never grows back: a direction whose a - b N falls below s_k, since
// the other one has come up and pulls it, keeps s_k, and its line in the equation reads (C N_(k+1))_d = s_k.
#include "tests/support/book.hpp"
#include "tests/support/cloth_patch.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <Eigen/LU>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double tolerance = 1e-5;  // the whisper of the law and the solver's tension tolerance beside some 100 N/m
const std::string source = "recursion, derived here";

// One quad, all of it held; along x it is shorter than its cloth by `loose` (Green-Lagrange).
PatchSolver held_piece(const PatchCloth& cloth, double loose) {
  Patch p(cloth);
  p.add_grid(1, 1, [](double u, double v) { return Eigen::Vector3d(0.2 * u, 0.3 * v, 0); });
  for (int n = 0; n < 4; ++n)
    for (int k = 0; k < 3; ++k) p.hold_node(n, k);
  PatchSolver s(p);
  for (int n : {2, 3}) s.move_node(n, 0, 0.2 * (std::sqrt(1 - 2 * loose) - 1));
  return s;
}

ShrinkState shrink_of(double warp, double fill, double limit_warp, double limit_fill) {
  ShrinkState s;
  s.free_shrink[0] = warp;
  s.free_shrink[1] = fill;
  s.limit_pull[0] = limit_warp;
  s.limit_pull[1] = limit_fill;
  return s;
}

void enter(const std::string& check, const std::string& quantity, double published, double ours) {
  book::Chapter{"Heat shrink"}.number(check, quantity, source, published, ours, tolerance);
}

std::string doses(int n) { return std::to_string(n) + (n > 1 ? " doses" : " dose"); }

}  // namespace

TEST_CASE("part doses bring held cloth to its standing pull by a fixed factor each") {
  const double k = 100e3, free = 0.04, limit = 350;
  for (double phi : {0.25, 0.6}) {
    PatchSolver s = held_piece({k, k, 0, k / 2, 0}, 0);
    const double standing = free / (1 / k + free / limit), factor = (1 - phi) / (1 + phi * free * k / limit);
    for (int n = 1; n <= 4; ++n) {
      s.iron(shrink_of(free, free, limit, limit), phi);
      enter("Held cloth, part doses",
            "phi = " + std::to_string(phi).substr(0, phi == 0.25 ? 4 : 3) + ", " + doses(n) + ": pull [N/m]",
            standing * (1 - std::pow(factor, n)), s.pull(0)[1]);
    }
  }
}

TEST_CASE("part doses take up the looseness first, as an exponential, and then build up pull") {
  const double k = 100e3, free = 0.04, limit = 350, loose = 0.01, phi = 0.1;
  PatchSolver s = held_piece({k, k, 0, k / 2, 0}, loose);
  double shrink = 0;
  for (int n = 1; n <= 6; ++n) {
    s.iron(shrink_of(free, free, limit, limit), phi);
    const double a = shrink + phi * (free - shrink), b = phi * free / limit;
    const double pull = std::max(0.0, (a - loose) / (1 / k + b));
    shrink = a - b * pull;
    if (pull > 0) enter("Loose cloth, part doses of 0.1", doses(n) + ": pull [N/m]", pull, s.pull(0)[1]);
    enter("Loose cloth, part doses of 0.1", doses(n) + ": shrink [%]", 100 * shrink, 100 * s.state().shrink[0][1]);
  }
}

TEST_CASE("two directions coupled by Poisson's ratio follow the recursion of both") {
  const PatchCloth cloth{120e3, 80e3, 0.3, 20e3, 0};
  const double phi = 0.3;
  const Eigen::Vector2d free(0.04, 0.03), limit(350, 500);
  Eigen::Matrix2d c;
  c << 1 / cloth.warp, -cloth.poisson / cloth.warp, -cloth.poisson / cloth.warp, 1 / cloth.fill;
  const Eigen::Matrix2d d = (free.array() / limit.array()).matrix().asDiagonal();
  PatchSolver s = held_piece(cloth, 0);
  Eigen::Vector2d n(0, 0), shrink(0, 0);
  bool one_stood_still = false;
  const std::string check = "Held cloth, both directions coupled, part doses of 0.3";
  for (int k = 1; k <= 6; ++k) {
    s.iron(shrink_of(free[0], free[1], limit[0], limit[1]), phi);
    bool grows[2] = {true, true};
    for (int round = 0; round < 2; ++round) {
      Eigen::Matrix2d left = c;
      Eigen::Vector2d right = shrink;
      for (int i = 0; i < 2; ++i)
        if (grows[i]) left(i, i) += phi * d(i, i), right[i] += phi * (free[i] - shrink[i]);
      n = left.inverse() * right;
      for (int i = 0; i < 2; ++i) grows[i] = grows[i] && (c * n)[i] > shrink[i];
    }
    shrink = c * n;
    one_stood_still = one_stood_still || !grows[0] || !grows[1];
    if (k != 1 && k != 3 && k != 6) continue;
    enter(check, doses(k) + ": pull along the warp [N/m]", n[0], s.pull(0)[0]);
    enter(check, doses(k) + ": pull along the fill [N/m]", n[1], s.pull(0)[1]);
  }
  CHECK(one_stood_still);
}

TEST_CASE("held both ways, cloth settles at its stated pull at each setting, whatever was done colder") {
  const Cloth cloth = sample::cloth();
  PatchSolver s = held_piece({cloth.stiffness.warp, cloth.stiffness.fill, cloth.poisson, cloth.shear, 0}, 0);
  for (int i = 1; i < static_cast<int>(cloth.curve.size()); ++i) {
    const ShrinkPoint& p = cloth.curve[i];
    const ShrinkState at = shrink_at(cloth, s.model().compliance, p.temperature);
    for (double dose : {0.4, 1.0}) s.iron(at, dose);
    const int fahrenheit = static_cast<int>(std::lround(p.temperature * 1.8 - 459.67));
    book::enter({.chapter = "Heat shrink",
                 .check = "Held cloth after a light and a full pass",
                 .quantity = std::to_string(fahrenheit) + " F: pull [N/m]",
                 .source = "the cloth's own data (docs/model.md, section 3)",
                 .published = p.pull.warp,
                 .ours = s.pull(0)[0],
                 .tolerance = tolerance});
  }
}
