// One bay of cloth between two ribs that carry the same shallow arc: what the cloth loses of it by its own pull.
// Derived here: shallow cloth without pressure under uniform pulls N_x (chordwise) and N_y (spanwise) has the height
//   N_x w_xx + N_y w_yy = 0,   w = 4 h x (c - x)/c^2 on the ribs y = +-b/2,   w = 0 at x = 0 and x = c.
// The sine series of the arc is the sum over odd n of f_n sin(n pi x/c), f_n = 32 h/(n pi)^3; each term dies out from
// the ribs on its own, with a_n = n pi k b/(2c), k = sqrt(N_x/N_y):
//   w = sum f_n sin(n pi x/c) cosh(2 a_n y/b)/cosh(a_n),   mean of w = sum f_n (2/(n pi)) tanh(a_n)/a_n.
#include "tests/published/starting_pull.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;
using namespace evenpull::published;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double chord = 0.36;  // m
// So flat that settling hardly changes the pulls: their strain is 1e-6 of slope against 5e-3 of shrink.
constexpr double rise = 1e-3 * chord;

struct Bay {
  double width, chordwise, spanwise;  // m, N/m
  const char* name;
};

/// Heights as shares of the arc's: middle of the bay; mid-chord half-way from there to a rib; mean of all, as a share
/// of the arc's mean.
struct Heights {
  double middle = 0, half_way = 0, mean = 0;
};

Heights series(const Bay& bay) {
  Heights h;
  constexpr int last = 99;  // terms fall with n^-3 on the ribs and exponentially between them
  for (int n = 1; n <= last; n += 2) {
    const double f = 32 / std::pow(n * pi, 3), sign = n % 4 == 1 ? 1 : -1;
    const double a = n * pi * std::sqrt(bay.chordwise / bay.spanwise) * bay.width / (2 * chord);
    h.middle += sign * f / std::cosh(a);
    h.half_way += sign * f * std::cosh(a / 2) / std::cosh(a);
    h.mean += f * 2 / (n * pi) * std::tanh(a) / a;
  }
  h.mean /= 2.0 / 3.0;
  return h;
}

// A quarter of the bay: x from the edge to mid-chord, y from mid-bay to the rib.
Heights settle(const Bay& bay, int n) {
  const PatchCloth cloth{100e3, 80e3, 0.2, 5e3, 0};  // warp along the span
  Patch p(cloth);
  p.add_grid(n, n, [&](double u, double v) {
    const double x = 0.5 * chord * u;
    return Eigen::Vector3d(x, 0.5 * bay.width * v, 4 * rise * x * (chord - x) / (chord * chord));
  });
  const auto at = [n](int i, int j) { return i * (n + 1) + j; };
  for (int i = 0; i <= n; ++i) {
    for (int k = 0; k < 3; ++k) {
      p.hold_node(at(0, i), k);
      p.hold_node(at(i, n), k);
    }
    p.hold_node(at(n, i), 0);
    p.hold_node(at(i, 0), 1);
  }
  PatchSolver s(p);
  s.shrink(bay.spanwise / cloth.warp - cloth.poisson * bay.chordwise / cloth.warp,
           bay.chordwise / cloth.fill - cloth.poisson * bay.spanwise / cloth.warp);
  guess_pull(s, std::min(bay.chordwise, bay.spanwise));
  s.solve();
  const auto height = [&](int node) { return s.position(node).z() / rise; };
  Heights h{height(at(n, 0)), height(at(n, n / 2)), 0};
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j)
      h.mean +=
          (height(at(i, j)) + height(at(i + 1, j)) + height(at(i, j + 1)) + height(at(i + 1, j + 1))) / (4.0 * n * n);
  h.mean /= 2.0 / 3.0;
  // The series takes uniform pulls.
  for (int q = 0; q < n * n; ++q) {
    CHECK(s.pull(q)[0] == Approx(bay.spanwise).epsilon(1e-3));
    CHECK(s.pull(q)[1] == Approx(bay.chordwise).epsilon(1e-3));
  }
  return h;
}

}  // namespace

TEST_CASE("a bay of cloth sags between arc-shaped ribs as the series for its two pulls says") {
  for (const Bay& bay : {Bay{0.30, 600, 600, "equal pulls, bay 0.83 of the chord"},
                         Bay{0.30, 450, 900, "spanwise pull twice the chordwise, bay 0.83 of the chord"},
                         Bay{0.18, 900, 450, "chordwise pull twice the spanwise, bay half the chord"}}) {
    std::vector<MeshLevel> middle, half_way, mean;
    for (int n : {8, 16, 32}) {
      const Heights h = settle(bay, n);
      middle.push_back({1.0 / n, 1 - h.middle});
      half_way.push_back({1.0 / n, 1 - h.half_way});
      mean.push_back({1.0 / n, 1 - h.mean});
    }
    const Heights exact = series(bay);
    const auto enter = [&](const std::string& quantity, double value, const std::vector<MeshLevel>& levels) {
      book::enter({.chapter = "Cloth",
                   .check = std::string("Sag of one bay between arc-shaped ribs, ") + bay.name,
                   .quantity = quantity,
                   .source = "derived here: sine series of N_x w_xx + N_y w_yy = 0",
                   .published = value,
                   .tolerance = 0.001,  // the pulls are even to that
                   .levels = levels,
                   .theory = 2,
                   .least_order = 1.8});
    };
    enter("sag at mid-bay and mid-chord, share of the arc's height", 1 - exact.middle, middle);
    enter("sag at mid-chord half-way to a rib, share of the arc's height", 1 - exact.half_way, half_way);
    enter("mean sag of the bay, share of the arc's mean height", 1 - exact.mean, mean);
  }
}
