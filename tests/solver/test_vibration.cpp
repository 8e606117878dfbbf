// Vibrations of cloth: the pieces. Frequencies in closed form: tests/published.
#include "solver/sound/vibration.hpp"
#include "solver/statement/errors.hpp"
#include "tests/solver/small_job.hpp"
#include "tests/support/tight_cloth.hpp"

#include <Eigen/Geometry>

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

using namespace evenpull;
using namespace evenpull::check;

namespace {

std::vector<int> every_quad(const Model& m) {
  std::vector<int> q(m.panel.quads.size());
  std::iota(q.begin(), q.end(), 0);
  return q;
}

// Motion of the whole panel as one body: joints as their own place demands, cloth with them.
Eigen::VectorXd rigid(const Model& m, const Eigen::Vector3d& shift, const Eigen::Vector3d& turn) {
  Eigen::VectorXd d = Eigen::VectorXd::Zero(m.unknowns.count);
  for (std::size_t j = 0; j < m.panel.joints.size(); ++j) {
    d.segment<3>(6 * j) = shift + turn.cross(m.panel.joints[j].position);
    d.segment<3>(6 * j + 3) = turn;
  }
  for (std::size_t i = 0; i < m.panel.nodes.size(); ++i)
    if (m.unknowns.nodes[i].is_free())
      d.segment<3>(m.unknowns.nodes[i].index[0]) = shift + turn.cross(m.panel.nodes[i].placed);
  return d;
}

Covering after_first_stage(Job& j) {
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, alternating(j.panel()), 250, 1));
  REQUIRE(j.ironing.settle(s, "settled").outcome == Outcome::settled);
  return s;
}

// Cloth of the inner bay on one side.
std::vector<int> one_bay(const Panel& p) {
  std::vector<int> out;
  for (std::size_t q = 0; q < p.quads.size(); ++q)
    if (p.quads[q].bay == 1 && p.quads[q].side == Side::top) out.push_back(static_cast<int>(q));
  return out;
}

constexpr double areal_mass = 0.1;  // kg/m^2

Eigen::VectorXd times(const Sparse& lower, const Eigen::VectorXd& x) {
  return lower.selfadjointView<Eigen::Lower>() * x;
}

}  // namespace

TEST_CASE("the cloth's mass is its area times its mass per area whichever way it moves, ties included") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 100);
  const Sparse mass = cloth_mass(j.model, every_quad(j.model), areal_mass);
  const auto weigh = [&](const Eigen::VectorXd& x) { return x.dot(times(mass, x)); };
  for (const Eigen::Vector3d& way : {Eigen::Vector3d(1, 0, 0), Eigen::Vector3d(0, 1, 0), Eigen::Vector3d(0.6, 0, 0.8)})
    CHECK(weigh(rigid(j.model, way, {0, 0, 0})) == Approx(areal_mass * j.model.cloth_area).epsilon(1e-10));
}

TEST_CASE("turned as a body the cloth's mass is its moment of inertia") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 100);
  const Model& m = j.model;
  const Sparse mass = cloth_mass(m, every_quad(m), areal_mass);
  const Eigen::VectorXd x = rigid(m, {0, 0, 0}, {0, 0, 1});
  // A linear triangle: w/12 (sum of squares of the corners + square of their sum).
  double inertia = 0;
  for (std::size_t q = 0; q < m.panel.quads.size(); ++q)
    for (int c = 0; c < 4; ++c) {
      Eigen::Vector2d sum(0, 0);
      double squares = 0;
      for (int i : triangle_corners[c]) {
        const Eigen::Vector2d at = m.panel.nodes[m.panel.quads[q].nodes[i]].placed.head<2>();
        sum += at;
        squares += at.squaredNorm();
      }
      inertia += areal_mass * m.triangles[4 * q + c].weight / 12 * (squares + sum.squaredNorm());
    }
  CHECK(x.dot(times(mass, x)) == Approx(inertia).epsilon(1e-9));
}

TEST_CASE("a vibration balances: stiffness times shape is mass times acceleration") {
  PatchSolver s = lay_tight({.a = 0.35, .b = 0.3, .along_x = 10, .along_y = 8});
  s.solve();
  const auto found = natural_vibrations(s.equilibrium(), s.state(), {.areal_mass = areal_mass, .modes = 3});
  const Sparse k = s.equilibrium().tangent(s.state());
  const Sparse mass = cloth_mass(s.model(), every_quad(s.model()), areal_mass);
  REQUIRE(found.size() == 3);
  for (const Vibration& v : found) {
    const double omega = 2 * 3.14159265358979 * v.frequency;
    Eigen::VectorXd r = times(k, v.shape);
    const double size = r.norm();
    r -= omega * omega * times(mass, v.shape);
    for (int i : s.model().held[0]) {
      CHECK(v.shape[i] == 0);
      r[i] = 0;
    }
    CHECK(r.norm() < 1e-6 * size);
    CHECK(v.shape.maxCoeff() == 1);
    CHECK(v.shape.minCoeff() >= -1 - 1e-9);
    CHECK(v.residual < 1e-8);
  }
  CHECK(found[0].frequency < found[1].frequency);
  CHECK(found[1].frequency < found[2].frequency);
}

TEST_CASE("both modes of a square that share a frequency are found") {
  PatchSolver s = lay_tight({.along_x = 8, .along_y = 8});
  s.solve();
  const auto found = natural_vibrations(s.equilibrium(), s.state(), {.areal_mass = areal_mass, .modes = 3});
  REQUIRE(found.size() == 3);
  CHECK(found[1].frequency == Approx(found[2].frequency).epsilon(1e-8));
  CHECK(found[1].frequency / found[0].frequency == Approx(std::sqrt(2.5)).epsilon(0.03));
}

TEST_CASE("four times the pull, twice the frequency; four times the mass, half of it") {
  const auto lowest = [](double pull, double mass) {
    PatchSolver s = lay_tight({.pull_x = pull, .pull_y = pull, .along_x = 8, .along_y = 8});
    s.solve();
    return natural_vibrations(s.equilibrium(), s.state(), {.areal_mass = mass}).front().frequency;
  };
  const double one = lowest(300, 0.1);
  CHECK(lowest(1200, 0.1) == Approx(2 * one).epsilon(1e-6));
  CHECK(lowest(300, 0.4) == Approx(one / 2).epsilon(1e-9));
}

TEST_CASE("air lowers every frequency, two sides more than one, and never more than its mass on the shape in vacuum") {
  PatchSolver s = lay_tight({.a = 0.35, .b = 0.3, .along_x = 10, .along_y = 8});
  s.solve();
  const auto with = [&](double density, double sides) {
    return natural_vibrations(s.equilibrium(), s.state(), {areal_mass, {}, 3, density, sides});
  };
  const auto vacuum = with(0, 2), one = with(1.2, 1), two = with(1.2, 2), thin = with(1e-6, 2);
  for (int i = 0; i < 3; ++i) {
    CHECK(one[i].frequency < vacuum[i].frequency);
    CHECK(two[i].frequency < one[i].frequency);
    CHECK(thin[i].frequency == Approx(vacuum[i].frequency).epsilon(1e-4));
  }
  // Rayleigh: any shape but the true one is too stiff.
  const double bound = frequency_with_air(vacuum[0], 1.2, 2);
  CHECK(two[0].frequency < bound);
  CHECK(two[0].frequency > 0.98 * bound);
}

TEST_CASE("cloth of one bay of a panel vibrates by itself, all else at rest") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  const Covering s = after_first_stage(j);
  Equilibrium e(j.model, {});
  const std::vector<int> bay = one_bay(j.panel());
  REQUIRE(!bay.empty());
  const Vibration v = natural_vibrations(e, s, {areal_mass, bay, 1, 1.2, 2}).front();
  // A membrane of that size at a few hundred N/m.
  CHECK(v.frequency > 20);
  CHECK(v.frequency < 300);
  std::vector<char> inside(j.panel().nodes.size(), 0);
  for (int q : bay)
    for (int n : j.panel().quads[q].nodes) inside[n] = 1;
  for (std::size_t i = 0; i < inside.size(); ++i)
    if (!inside[i]) CHECK(displacement(j.model.unknowns.nodes[i], v.shape).norm() == 0);
  for (int i = 0; i < 6 * static_cast<int>(j.panel().joints.size()); ++i) CHECK(v.shape[i] == 0);
  for (const SlidingPoint& p : j.model.unknowns.sliding) CHECK(v.shape[p.first_unknown] == 0);
}
