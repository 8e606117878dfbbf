// Beam-columns: bending that grows with the compression in the member (docs/model.md, section 5).
// With u = (L/2) sqrt(P/EI), uniform load: w/w0 = 12 (2 sec u - u^2 - 2)/(5 u^4), M/M0 = 2 (sec u - 1)/u^2;
// equal end moments: M/M0 = sec u. Derived here; attributed to Timoshenko & Gere, Theory of Elastic Stability, from
// memory.
#include "tests/published/straight_line.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr int elements = 16;
constexpr double length = 0.4, q = 500;  // m, N/m
constexpr double pi = 3.14159265358979323846;
// Error of sixteen cubic elements near the buckling load: 2e-6 in the load, five times that in the amplification of 5.
constexpr double tolerance = 1e-4;

struct Row {
  double share, deflection_mm, moment_N_mm, end_moment_ratio;
};
constexpr Row rows[3] = {
    {0.25, 5.52690, 13429.95, 1.41421}, {0.5, 8.29808, 20299.45, 2.25217}, {0.8, 20.76997, 51247.0, 6.05788}};

StraightLine make_line() {
  return {length, elements, tube_section(12.7e-3, 0.9e-3), tube_modulus};
}

double euler_load() {
  return pi * pi * tube_modulus * tube_section(12.7e-3, 0.9e-3).inertia_up / (length * length);
}

}  // namespace

TEST_CASE("without compression a uniformly loaded beam bends by 5qL^4/384EI") {
  const StraightLine line = make_line();
  const Eigen::VectorXd u = solve_held(line.elastic(), line.uniform_load(q), {0, line.unknowns() - 2});
  CHECK(u[elements] == Approx(4.14154e-3).epsilon(2e-6));
  CHECK(std::abs(line.moment_at(elements / 2, u, 0, q)) == Approx(q * length * length / 8));
}

TEST_CASE("compression amplifies the bending of a uniformly loaded beam as the secant formula says") {
  const StraightLine line = make_line();
  for (const Row& r : rows) {
    CAPTURE(r.share);
    const double push = -r.share * euler_load();
    const Eigen::VectorXd u =
        solve_held(line.elastic() + line.geometric(push), line.uniform_load(q), {0, line.unknowns() - 2});
    CHECK(u[elements] == Approx(r.deflection_mm * 1e-3).epsilon(tolerance));
    // The element's own moment leaves out the small share of the axial force within one element.
    CHECK(std::abs(line.moment_at(elements / 2, u, push, q)) == Approx(r.moment_N_mm * 1e-3).epsilon(10 * tolerance));
  }
}

TEST_CASE("compression amplifies equal end moments by the secant of u") {
  const StraightLine line = make_line();
  for (const Row& r : rows) {
    CAPTURE(r.share);
    const double push = -r.share * euler_load();
    Eigen::VectorXd f = Eigen::VectorXd::Zero(line.unknowns());
    f[1] = 1;
    f[line.unknowns() - 1] = -1;
    const Eigen::VectorXd u = solve_held(line.elastic() + line.geometric(push), f, {0, line.unknowns() - 2});
    CHECK(std::abs(line.moment_at(elements / 2, u, push, 0)) == Approx(r.end_moment_ratio).epsilon(10 * tolerance));
  }
}

TEST_CASE("a pulled member bends less than an unloaded one") {
  const StraightLine line = make_line();
  const Eigen::VectorXd f = line.uniform_load(q);
  const Eigen::VectorXd u = solve_held(line.elastic() + line.geometric(euler_load()), f, {0, line.unknowns() - 2});
  // Same closed form with sec replaced by sech, u = pi/2.
  const double x = pi / 2;
  const double ratio = 12 * (2 / std::cosh(x) + x * x - 2) / (5 * std::pow(x, 4));
  CHECK(u[elements] == Approx(ratio * 4.14154e-3).epsilon(tolerance));
}
