// A round membrane clamped flat and loaded by pressure on its undeformed plane: w0 = C a (p a/Et)^(1/3),
// N = n (Et p^2 a^2)^(1/3). Hencky (1915) with the series as corrected later (attributed to Fichter, NASA TP-3658,
// 1997, from memory); the coefficients were computed again by shooting.
#include "tests/support/book.hpp"
#include "tests/support/cloth_patch.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double radius = 0.15, stiffness = 100e3, nu = 0.3, pressure = 100;

// Unit square to disc by concentric squares; smooth but for the two diagonals.
Eigen::Vector3d in_disc(double u, double v) {
  const double a = 2 * u - 1, b = 2 * v - 1;
  return radius * Eigen::Vector3d(a * std::sqrt(1 - 0.5 * b * b), b * std::sqrt(1 - 0.5 * a * a), 0);
}

struct Reading {
  double rise, pull;
};

Reading inflate(int n) {
  Patch p(isotropic(stiffness, nu));
  p.add_grid(n, n, in_disc);
  for (int i = 0; i <= n; ++i)
    for (int j = 0; j <= n; ++j)
      if (i == 0 || j == 0 || i == n || j == n)
        for (int k = 0; k < 3; ++k) p.hold_node(i * (n + 1) + j, k);
  PatchSolver s(p);
  const double w0 = 0.65 * radius * std::cbrt(pressure * radius / stiffness);
  for (std::size_t i = 0; i < p.nodes().size(); ++i) {
    const double r = p.nodes()[i].norm() / radius;
    if (r < 1 - 1e-9) s.guess_node(static_cast<int>(i), {0, 0, w0 * (1 - r * r)});
  }
  for (const auto& q : p.quads()) {
    const Eigen::Vector3d a = p.nodes()[q[2]] - p.nodes()[q[0]], b = p.nodes()[q[3]] - p.nodes()[q[1]];
    for (int k : q) s.load_node(k, {0, 0, 0.25 * pressure * 0.5 * std::abs(a.x() * b.y() - a.y() * b.x())});
  }
  s.solve();
  const int middle = n / 2;
  double pull = 0;
  for (int i : {middle - 1, middle})
    for (int j : {middle - 1, middle}) pull += 0.25 * s.pull(i * n + j)[0];
  return {s.displacement(middle * (n + 1) + middle).z(), pull};
}

}  // namespace

TEST_CASE("a round membrane under pressure rises as Hencky's corrected series says") {
  const double unit_rise = radius * std::cbrt(pressure * radius / stiffness);
  const double unit_pull = std::cbrt(stiffness * pressure * pressure * radius * radius);
  std::vector<MeshLevel> rise, pull;
  for (int n : {8, 16, 32}) {
    const Reading r = inflate(n);
    rise.push_back({1.0 / n, r.rise / unit_rise});
    pull.push_back({1.0 / n, r.pull / unit_pull});
  }
  const std::string source = "Hencky (1915) as corrected; attributed to Fichter, NASA TP-3658, from memory";
  book::enter({.chapter = "Cloth", .check = "Round membrane under pressure, nu = 0.3", .quantity = "rise w0/(a (pa/Et)^(1/3))",
               .source = source, .published = 0.65344, .tolerance = 0.01, .levels = rise, .theory = 2, .least_order = 1.8});
  book::enter({.chapter = "Cloth", .check = "Round membrane under pressure, nu = 0.3",
               .quantity = "pull at the centre N/(Et p^2 a^2)^(1/3)", .source = source, .published = 0.43110,
               .tolerance = 0.01, .levels = pull, .theory = 2});
}
