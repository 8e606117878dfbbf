// Beams over equal spans on rigid supports under a uniform load: what a trailing edge between ribs feels.
// Clapeyron's three moments (1857), solved here; deflections are tabled by integrating the same moments.
#include "tests/published/straight_line.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr double span = 0.25, q = 900;  // m, N/m
constexpr int per_span = 40;

struct Solved {
  Eigen::VectorXd u, reactions;  // reactions of the supports in units of q L
  StraightLine line;
};

Solved solve_beam(int spans) {
  StraightLine line(spans * span, spans * per_span, tube_section(12.7e-3, 0.9e-3), tube_modulus);
  std::vector<int> held;
  for (int i = 0; i <= spans; ++i) held.push_back(2 * i * per_span);
  const Eigen::MatrixXd k = line.elastic();
  const Eigen::VectorXd f = line.uniform_load(q), u = solve_held(k, f, held), r = f - k * u;
  Solved out{u, Eigen::VectorXd(spans + 1), line};
  for (int i = 0; i <= spans; ++i) out.reactions[i] = r[2 * i * per_span] / (q * span);
  return out;
}

// Support moments, hogging, in q L^2: M_(i-1) + 4 M_i + M_(i+1) = 1/2.
Eigen::VectorXd three_moments(int spans) {
  const int n = spans - 1;
  Eigen::MatrixXd a = Eigen::MatrixXd::Zero(n, n);
  for (int i = 0; i < n; ++i) {
    a(i, i) = 4;
    if (i > 0) a(i, i - 1) = a(i - 1, i) = 1;
  }
  return a.ldlt().solve(Eigen::VectorXd::Constant(n, 0.5));
}

double largest_deflection(const Solved& s, int which_span) {
  double most = 0;
  for (int i = 0; i <= per_span; ++i) most = std::max(most, s.u[2 * (which_span * per_span + i)]);
  const double flexural = tube_modulus * tube_section(12.7e-3, 0.9e-3).inertia_up;
  return most * flexural / (q * std::pow(span, 4));
}

}  // namespace

TEST_CASE("support moments of two to eight equal spans are those of the three-moment equation") {
  for (int spans = 2; spans <= 8; ++spans) {
    const Solved s = solve_beam(spans);
    const Eigen::VectorXd m = three_moments(spans);
    for (int i = 1; i < spans; ++i) {
      CAPTURE(spans, i);
      const double moment = std::abs(s.line.moment_at(i * per_span, s.u, 0, q)) / (q * span * span);
      CHECK(moment == Approx(m[i - 1]).epsilon(1e-6));  // round-off of a stiff system
    }
  }
}

TEST_CASE("four equal spans share their load in the exact fractions 11/28, 8/7 and 13/14") {
  const Solved s = solve_beam(4);
  const double exact[5] = {11.0 / 28, 8.0 / 7, 13.0 / 14, 8.0 / 7, 11.0 / 28};
  for (int i = 0; i < 5; ++i) CHECK(std::abs(s.reactions[i]) == Approx(exact[i]).epsilon(1e-6));
  CHECK(std::abs(s.line.moment_at(per_span, s.u, 0, q)) == Approx(3.0 / 28 * q * span * span).epsilon(1e-6));
  CHECK(std::abs(s.line.moment_at(2 * per_span, s.u, 0, q)) == Approx(1.0 / 14 * q * span * span).epsilon(1e-6));
}

TEST_CASE("the end span bows most, by the tabled share of qL^4/EI") {
  // Deflections sampled at forty points a span miss the peak by less than 2e-3 of it.
  const double sampled = 2e-3;
  CHECK(largest_deflection(solve_beam(1), 0) == Approx(0.013021).epsilon(sampled));
  CHECK(largest_deflection(solve_beam(2), 0) == Approx(0.005416).epsilon(sampled));
  const Solved three = solve_beam(3);
  CHECK(largest_deflection(three, 0) == Approx(0.006884).epsilon(sampled));
  CHECK(largest_deflection(three, 1) == Approx(0.000521).epsilon(sampled));
  const Solved six = solve_beam(6);
  CHECK(largest_deflection(six, 0) == Approx(0.006542).epsilon(sampled));
  CHECK(largest_deflection(six, 1) == Approx(0.001624).epsilon(sampled));
  CHECK(largest_deflection(six, 2) == Approx(0.002806).epsilon(sampled));
}
