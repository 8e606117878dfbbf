// Torsion of solid wooden triangles against Prandtl's membrane, solved here.
#include "solver/statement/solid_section.hpp"
#include "tests/support/book.hpp"

#include <Eigen/SparseCholesky>
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

using namespace evenpull;

namespace {

constexpr book::Chapter frame{"Frame"};

struct Torsion {
  double constant = 0, reach = 0;  ///< J; greatest shear stress over T/J
};

/// Prandtl's stress function (1903): Laplacian -2, nothing at the rim, J = 2 times its volume, stress its slope. Linear
/// elements, n of them along each side; width 1, `height` at the front.
Torsion membrane(double height, int n) {
  const auto node = [n](int i, int j) { return i * (n + 1) - i * (i - 1) / 2 + j; };
  const int count = (n + 1) * (n + 2) / 2;
  const Eigen::Vector2d a(0, height / 2), b(0, -height / 2), c(1, 0);
  std::vector<Eigen::Vector2d> at(static_cast<std::size_t>(count));
  std::vector<bool> rim(at.size());
  std::vector<std::array<int, 3>> pieces;
  for (int i = 0; i <= n; ++i)
    for (int j = 0; i + j <= n; ++j) {
      at[static_cast<std::size_t>(node(i, j))] = a + (b - a) * i / n + (c - a) * j / n;
      rim[static_cast<std::size_t>(node(i, j))] = i == 0 || j == 0 || i + j == n;
      if (i + j < n) pieces.push_back({node(i, j), node(i + 1, j), node(i, j + 1)});
      if (i + j < n - 1) pieces.push_back({node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)});
    }
  const auto side = [&](const std::array<int, 3>& p, std::size_t k) -> Eigen::Vector2d {
    return at[static_cast<std::size_t>(p[(k + 2) % 3])] - at[static_cast<std::size_t>(p[(k + 1) % 3])];
  };
  const double area = height / 2 / (n * n);  // all alike
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::VectorXd load = Eigen::VectorXd::Zero(count);
  for (const auto& p : pieces)
    for (std::size_t k = 0; k < 3; ++k) {
      if (rim[static_cast<std::size_t>(p[k])]) continue;
      load[p[k]] += 2 * area / 3;
      for (std::size_t l = 0; l < 3; ++l)
        if (!rim[static_cast<std::size_t>(p[l])])
          entries.emplace_back(p[k], p[l], side(p, k).dot(side(p, l)) / (4 * area));
    }
  for (int i = 0; i < count; ++i)
    if (rim[static_cast<std::size_t>(i)]) entries.emplace_back(i, i, 1);
  Eigen::SparseMatrix<double> k(count, count);
  k.setFromTriplets(entries.begin(), entries.end());
  const Eigen::VectorXd u = Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>>(k).solve(load);
  Torsion out;
  for (const auto& p : pieces) {
    Eigen::Vector2d slope(0, 0);
    for (std::size_t m = 0; m < 3; ++m) {
      out.constant += 2 * area * u[p[m]] / 3;
      slope += side(p, m) * u[p[m]] / (2 * area);
    }
    out.reach = std::max(out.reach, slope.norm());
  }
  return out;
}

}  // namespace

TEST_CASE("wooden triangles twist as Prandtl's membrane says, and their stress is not put too low") {
  // Trailing edges have fronts of a tenth to a half of their width; up to 1.7 Roark's other formula holds.
  for (const double ratio : {0.1, 0.2, 0.35, 0.5, 0.8, 1.2, 1.7}) {
    const Torsion exact = membrane(ratio, 80);
    const Section s = triangle_section(1, ratio);
    frame.number("Wooden triangle, front / width " + std::to_string(ratio).substr(0, 4), "torsion constant / width^4",
                 "Prandtl (1903), his membrane solved here", exact.constant, s.torsion, 0.05,
                 "Roark's fits, and linear elements, 80 a side");
    CHECK(s.reach_twist > exact.reach);
    CHECK(s.reach_twist < 1.12 * exact.reach);
  }
}
