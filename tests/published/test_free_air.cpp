// Mass of the air that moves with a thin surface standing free, both faces open.
// Rigid disc: 8/3 rho a^3 for both faces together (Lamb, Hydrodynamics, section 102 and 108, from memory: kinetic
// energy of a disc moving broadside, 4/3 rho a^3 U^2). The jump that does it is phi = 4/pi sqrt(a^2 - r^2) (derived
// here: the mass is its integral).
// A long strip of width 2 a, per length: pi rho a^2 (Lamb, section 71, from memory), reached from below by finite
// strips.
#include "solver/sound/air_mass.hpp"
#include "solver/sound/free_air.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace evenpull;

namespace {

constexpr book::Chapter air_and_vibration{"Air and vibration"};
constexpr double pi = 3.14159265358979323846;

struct Surface {
  std::vector<Eigen::Vector3d> nodes;
  std::vector<std::array<int, 4>> quads;
};

Surface laid(int n, int k, const std::function<Eigen::Vector3d(double, double)>& place) {
  Surface m;
  for (int i = 0; i <= n; ++i)
    for (int j = 0; j <= k; ++j) m.nodes.push_back(place(2.0 * i / n - 1, 2.0 * j / k - 1));
  const auto at = [&](int i, int j) { return i * (k + 1) + j; };
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < k; ++j) m.quads.push_back({at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)});
  return m;
}

// Radius 1.
Surface round_plate(int n) {
  return laid(n, n, [](double x, double y) -> Eigen::Vector3d {
    return {x * std::sqrt(1 - 0.5 * y * y), y * std::sqrt(1 - 0.5 * x * x), 0};
  });
}

double moved(const Surface& s, const std::function<double(const Eigen::Vector3d&)>& velocity) {
  Eigen::VectorXd v(s.nodes.size());
  for (int i = 0; i < v.size(); ++i) v[i] = velocity(s.nodes[i]);
  return FreeAir(s.nodes, s.quads).volume(v);
}

double rigid(const Eigen::Vector3d&) { return 1; }

}  // namespace

TEST_CASE("a rigid disc in free air moves 8/3 rho a^3 with both faces together") {
  std::vector<MeshLevel> levels;
  for (const int n : {6, 12, 24}) levels.push_back({1.0 / n, moved(round_plate(n), rigid)});
  air_and_vibration.study("Air moved by a rigid disc standing free", "mass of both faces/(rho a^3)",
                          "Lamb, Hydrodynamics, from memory", 8.0 / 3, 1e-2, levels, {.theory = 1, .least = 0.9},
                          "The root at the edge makes it first order; finer meshes find more.");
}

TEST_CASE("a rigid disc that turns about its diameter in free air has 16/45 rho a^5 of inertia from it") {
  // Rotation about a diameter: kinetic energy 8/45 rho a^5 omega^2 (Lamb, section 108, from memory).
  std::vector<MeshLevel> levels;
  for (const int n : {6, 12, 24})
    levels.push_back({1.0 / n, moved(round_plate(n), [](const Eigen::Vector3d& p) { return p.x(); })});
  air_and_vibration.study(
      "Air moved by a rigid disc turning about its diameter", "moment of inertia/(rho a^5)",
      "Lamb, Hydrodynamics, from memory", 16.0 / 45, 2e-2, levels, {.theory = 1, .least = 0.9},
      "The root at the edge makes it first order; the order seen at such sizes is still above one.");
}

TEST_CASE("a long strip in free air moves pi rho a^2 a length") {
  // Two lengths: what the ends lack drops out of the difference.
  const auto of_length = [](int aspect, int across) {
    return moved(laid(aspect * across, across,
                      [&](double x, double y) -> Eigen::Vector3d {
                        return {aspect * x, y, 0};
                      }),
                 rigid);
  };
  std::vector<MeshLevel> levels;
  for (const int across : {3, 6, 12})
    levels.push_back({1.0 / across, (of_length(4, across) - of_length(2, across)) / 4});
  air_and_vibration.study("Air moved by a long rigid strip standing free", "mass per length/(rho a^2)",
                          "Lamb, Hydrodynamics, from memory", pi, 0.02, levels, {.theory = 1, .least = 0.8},
                          "Strips four and two times as long as wide; the root at the edges makes it first order.");
}

TEST_CASE("a free surface moves less air than the same in a wall, and nearly as much where most of it rests") {
  // A bulge amid a plate four times as wide: the rest of the plate is its wall.
  const auto bulge = [](double width) {
    return [=](const Eigen::Vector3d& p) {
      const double h = 0.5 * width;
      return std::abs(p.x()) < h && std::abs(p.y()) < h ? std::cos(pi * p.x() / width) * std::cos(pi * p.y() / width)
                                                        : 0.0;
    };
  };
  const auto ratio = [&](double width) {
    const Surface s = laid(24, 24, [](double x, double y) -> Eigen::Vector3d { return {x, y, 0}; });
    Eigen::VectorXd v(s.nodes.size());
    for (int i = 0; i < v.size(); ++i) v[i] = bulge(width)(s.nodes[i]);
    return FreeAir(s.nodes, s.quads).volume(v) / (2 * AirMass(s.nodes, s.quads).volume(v));
  };
  const double alone = ratio(2), amid = ratio(0.5);
  CHECK(alone < amid);
  CHECK(alone > 0.6);
  CHECK(amid > 0.88);
  CHECK(amid < 1.0);
}
