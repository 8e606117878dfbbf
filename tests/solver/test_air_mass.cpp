// The mass of air on a vibrating surface. Published and derived numbers: tests/published/test_moving_air.cpp.
#include "solver/sound/air_mass.hpp"

#include <Eigen/Geometry>

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

struct Mesh {
  std::vector<Eigen::Vector3d> nodes;
  std::vector<std::array<int, 4>> quads;
};

// Unit square, skewed by moving the inner nodes a little, so that nothing rests on equal quads.
Mesh skewed(int n) {
  Mesh m;
  for (int i = 0; i <= n; ++i)
    for (int j = 0; j <= n; ++j) {
      const double x = static_cast<double>(i) / n, y = static_cast<double>(j) / n;
      const double in = x * (1 - x) * y * (1 - y);
      m.nodes.emplace_back(x + 0.7 * in * std::sin(9 * y), y + 0.6 * in * std::cos(7 * x), 0);
    }
  const auto at = [&](int i, int j) { return i * (n + 1) + j; };
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j) m.quads.push_back({at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)});
  return m;
}

// Some velocity without symmetry; number k of a family.
Eigen::VectorXd some(int size, int k) {
  Eigen::VectorXd v(size);
  for (int i = 0; i < size; ++i) v[i] = std::sin(1.3 + 0.7 * k + (2.1 + 0.4 * k) * i);
  return v;
}

}  // namespace

TEST_CASE("the air's mass is symmetric and positive, on a border that moves too") {
  const Mesh m = skewed(7);
  const AirMass air(m.nodes, m.quads);
  const int n = static_cast<int>(m.nodes.size());
  for (int k = 0; k < 6; ++k) {
    const Eigen::VectorXd v = some(n, k);
    CHECK(air.volume(v) > 0);
    CHECK(air.volume(v) == Approx(v.dot(air.times(v))).epsilon(1e-12));
    for (int j = 0; j < k; ++j)
      CHECK(v.dot(air.times(some(n, j))) == Approx(some(n, j).dot(air.times(v))).margin(1e-12));
  }
  for (int i = 0; i < n; ++i) CHECK(air.volume(Eigen::VectorXd::Unit(n, i)) > 0);
}

TEST_CASE("the air's mass grows with the cube of the size") {
  Mesh m = skewed(6);
  const Eigen::VectorXd v = some(static_cast<int>(m.nodes.size()), 1);
  const double one = AirMass(m.nodes, m.quads).volume(v);
  for (Eigen::Vector3d& x : m.nodes) x *= 3;
  CHECK(AirMass(m.nodes, m.quads).volume(v) == Approx(27 * one).epsilon(1e-12));
}

TEST_CASE("turned, shifted and with quads that go round the other way, the air weighs the same") {
  Mesh m = skewed(6);
  const Eigen::VectorXd v = some(static_cast<int>(m.nodes.size()), 2);
  const double one = AirMass(m.nodes, m.quads).volume(v);
  const Eigen::Matrix3d turn = Eigen::AngleAxisd(1.1, Eigen::Vector3d(1, 2, -0.5).normalized()).toRotationMatrix();
  for (Eigen::Vector3d& x : m.nodes) x = turn * x + Eigen::Vector3d(0.2, -3, 1);
  for (std::size_t q = 0; q < m.quads.size(); q += 2) std::swap(m.quads[q][1], m.quads[q][3]);
  const AirMass air(m.nodes, m.quads);
  CHECK(air.volume(v) == Approx(one).epsilon(1e-11));
  CHECK(air.out_of_plane() < 1e-12);
  CHECK(std::abs(air.normal().dot(turn.col(2))) == Approx(1).epsilon(1e-12));
}

TEST_CASE("two far apart patches weigh what they weigh alone, and little together") {
  // A breathing patch feels another at distance R by a b/(2 pi R), a and b their displaced areas.
  Mesh m = skewed(6);
  const int n = static_cast<int>(m.nodes.size());
  const double distance = 50;
  Mesh both = m;
  for (const Eigen::Vector3d& x : m.nodes) both.nodes.push_back(x + Eigen::Vector3d(distance, 0, 0));
  for (const auto& q : m.quads) both.quads.push_back({q[0] + n, q[1] + n, q[2] + n, q[3] + n});
  Eigen::VectorXd first = Eigen::VectorXd::Zero(2 * n), second = first;
  first.head(n).setOnes();
  second.tail(n).setOnes();
  const AirMass air(both.nodes, both.quads);
  CHECK(air.volume(first) == Approx(AirMass(m.nodes, m.quads).volume(Eigen::VectorXd::Ones(n))).epsilon(1e-10));
  CHECK(first.dot(air.times(second)) == Approx(1 / (2 * 3.14159265358979 * distance)).epsilon(1e-3));
}

TEST_CASE("how far a surface is from flat is said") {
  Mesh m = skewed(6);
  for (Eigen::Vector3d& x : m.nodes) x.z() = 0.05 * x.x() * (1 - x.x());
  CHECK(AirMass(m.nodes, m.quads).out_of_plane() == Approx(0.0125 * 0.6).margin(0.0125 * 0.2));
}
