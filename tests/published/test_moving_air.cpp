// Mass of the air that moves with a surface in a plane wall, one side, for shapes whose answer is known.
#include "solver/sound/air_mass.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <string>

using namespace evenpull;

namespace {

struct Mesh {
  std::vector<Eigen::Vector3d> nodes;
  std::vector<std::array<int, 4>> quads;
};

Mesh grid(int n, const std::function<Eigen::Vector3d(double, double)>& place) {
  Mesh m;
  for (int i = 0; i <= n; ++i)
    for (int j = 0; j <= n; ++j) m.nodes.push_back(place(2.0 * i / n - 1, 2.0 * j / n - 1));
  const auto at = [&](int i, int j) { return i * (n + 1) + j; };
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j) m.quads.push_back({at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)});
  return m;
}

// Radius 1, by concentric squares.
Mesh disc(int n) {
  return grid(n, [](double x, double y) -> Eigen::Vector3d {
    return {x * std::sqrt(1 - 0.5 * y * y), y * std::sqrt(1 - 0.5 * x * x), 0};
  });
}

// Side 1.
Mesh square(int n) {
  return grid(n, [](double x, double y) -> Eigen::Vector3d { return {0.5 * x, 0.5 * y, 0}; });
}

std::vector<MeshLevel> study(const std::function<Mesh(int)>& mesh, const std::function<double(double)>& velocity) {
  std::vector<MeshLevel> levels;
  for (int n : {16, 32, 64}) {
    const Mesh m = mesh(n);
    Eigen::VectorXd v(m.nodes.size());
    for (int i = 0; i < v.size(); ++i) v[i] = velocity(m.nodes[i].norm());
    levels.push_back({1.0 / n, AirMass(m.nodes, m.quads).volume(v)});
  }
  return levels;
}

constexpr double pi = 3.14159265358979323846;

}  // namespace

// Reactance of a baffled disc at low frequency: rho c S (8/(3 pi)) k a, so the mass is 8/3 rho a^3 (Rayleigh, Theory of
// Sound, section 302, from memory; the series of the reactance stands in any book on acoustics).
TEST_CASE("a rigid disc in a wall moves 8/3 rho a^3 of air on one side") {
  book::enter({.chapter = "Air and vibration",
               .check = "Air moved by a rigid disc in a wall",
               .quantity = "mass of one side/(rho a^3)",
               .source = "Rayleigh, Theory of Sound, section 302, from memory",
               .published = 8.0 / 3,
               .tolerance = 2e-3,
               .levels = study(disc, [](double) { return 1.0; }),
               .theory = 2,
               .least_order = 1.8});
}

// Mean of 1/R over two points of a unit square: 4/3 (1 - sqrt 2) + 4 ln(1 + sqrt 2), over 2 pi.
TEST_CASE("a rigid square in a wall moves 0.4732 rho a^3 of air on one side") {
  const double mean = 4.0 / 3 * (1 - std::sqrt(2.0)) + 4 * std::log(1 + std::sqrt(2.0));
  book::enter({.chapter = "Air and vibration",
               .check = "Air moved by a rigid square in a wall",
               .quantity = "mass of one side/(rho a^3)",
               .source = "closed form, derived here",
               .published = mean / (2 * pi),
               .tolerance = 2e-3,
               .levels = study(square, [](double) { return 1.0; }),
               .theory = 2,
               .least_order = 1.8});
}

// Lamb, On the vibrations of an elastic plate in contact with water, Proc. Royal Society A 98 (1920): a clamped round
// plate, shape (1 - r^2/a^2)^2, water on one side, moves with an added share 0.6689 rho a/(rho_plate h) of mass (number
// seen as 0.6691 in later use). The mean square of the shape is 1/5. By Hankel transform (derived here) the number is
// 640 Gamma(6) Gamma(1/2)/(2^6 Gamma(7/2)^2 Gamma(13/2)) = 0.66894.
TEST_CASE("a clamped round plate carries the air that Lamb found") {
  std::vector<MeshLevel> levels = study(disc, [](double r) { return std::pow(std::max(0.0, 1 - r * r), 2); });
  for (MeshLevel& l : levels) l.value /= pi / 5;
  book::enter({.chapter = "Air and vibration",
               .check = "Air moved by a clamped round plate, shape (1 - r^2/a^2)^2",
               .quantity = "mass of one side/(rho a x mean square x area)",
               .source = "Lamb (1920), from memory",
               .published = 0.6689,
               .tolerance = 1e-3,
               .levels = levels,
               .theory = 2,
               .least_order = 1.8});
}
