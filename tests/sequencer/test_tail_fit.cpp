// Small chances from a fit, against the normal distribution's own.
#include "sequencer/numbers/sobol.hpp"
#include "sequencer/sure/tail_fit.hpp"

#include <catch2/catch.hpp>

#include <boost/math/distributions/normal.hpp>

#include <cmath>

using namespace evenpull;

namespace {

StrengthOf metal(double scatter) { return {StrengthOf::metal, scatter}; }
StrengthOf wood(double scatter) { return {StrengthOf::wood, scatter}; }

double above(double sigmas) { return boost::math::cdf(boost::math::complement(boost::math::normal(), sigmas)); }

std::vector<std::vector<double>> inputs(int runs, int columns) {
  std::vector<std::vector<double>> x = sobol_points(runs, columns);
  for (auto& row : x)
    for (double& v : row) v = normal_quantile(v);
  return x;
}

}  // namespace

TEST_CASE(
    "the chance of damage of a lognormal stress is that of the normal distribution, far below what 128 runs can "
    "count") {
  // ln(stress/strength) = -0.9 + 0.32 z0 + 0.1 z1, strength off by 0.06: over 0 beyond 0.9/0.3406 sigmas.
  const auto x = inputs(128, 3);
  std::vector<std::vector<double>> y;
  for (const auto& row : x) y.push_back({-0.9 + 0.32 * row[0] + 0.1 * row[1]});
  const TailFit fit(x, y);
  CHECK(fit.at({1, 1, 1})[0] == Approx(-0.48));
  CHECK(fit.scatter(0) < 1e-9);
  const double exact = above(0.9 / std::hypot(0.32, 0.1, 0.06));  // 0.41 %
  CHECK(shares_over(fit, {0}, 0, {metal(0.06)}, 3, 400000)[0] == Approx(exact).epsilon(0.1));
  CHECK(shares_over(fit, {0}, 0.2, {metal(0.06)}, 3, 400000)[0] ==
        Approx(above(0.7 / std::hypot(0.32, 0.1, 0.06))).epsilon(0.1));
}

TEST_CASE("what the inputs do not explain counts as much as what they do") {
  // The second column is not among those fitted: it comes back as residual.
  const auto x = inputs(512, 2);
  std::vector<std::vector<double>> seen, y;
  for (const auto& row : x) seen.push_back({row[0]}), y.push_back({-0.6 + 0.2 * row[0] + 0.2 * row[1]});
  const TailFit fit(seen, y);
  CHECK(fit.scatter(0) == Approx(0.2).epsilon(0.05));
  CHECK(shares_over(fit, {0}, 0, {metal(0)}, 1, 40000)[0] == Approx(above(0.6 / std::hypot(0.2, 0.2))).epsilon(0.15));
}

TEST_CASE("numbers that rise together are not counted twice, and a later stage is never safer") {
  const auto x = inputs(128, 1);
  std::vector<std::vector<double>> same, opposed;
  for (const auto& row : x) {
    same.push_back({-0.5 + 0.3 * row[0], -0.5 + 0.3 * row[0]});
    opposed.push_back({-0.5 + 0.3 * row[0], -0.5 - 0.3 * row[0]});
  }
  const double one = above(0.5 / 0.3);
  const auto together = shares_over(TailFit(x, same), {0, 1}, 0, {metal(0), metal(0)}, 1, 40000);
  CHECK(together[0] == Approx(one).epsilon(0.05));
  CHECK(together[1] == together[0]);
  CHECK(shares_over(TailFit(x, opposed), {0, 1}, 0, {metal(0), metal(0)}, 1, 40000)[1] ==
        Approx(2 * one).epsilon(0.05));
}

TEST_CASE("wood scatters as wood and metal as metal, each by itself") {
  // Neither hangs on an input: ln(stress/strength) = -0.3, and what is left is the strength alone.
  const auto x = inputs(128, 1);
  const TailFit fit(x, std::vector<std::vector<double>>(x.size(), {-0.3, -0.3}));
  const double of_metal = above(0.3 / 0.1), of_wood = above(0.3 / 0.2);
  const auto over = shares_over(fit, {0, 1}, 0, {metal(0.1), wood(0.2)}, 1, 400000);
  CHECK(over[0] == Approx(of_metal).epsilon(0.25));  // 0.13 %, some 50 of the draws
  CHECK(over[1] == Approx(of_metal + of_wood - of_metal * of_wood).epsilon(0.05));
  const auto alike = shares_over(fit, {0, 1}, 0, {wood(0.2), wood(0.2)}, 1, 400000);
  CHECK(alike[1] == alike[0]);
}

TEST_CASE("runs to check the fit by lie where the fit puts the edge") {
  const auto x = inputs(128, 2);
  std::vector<std::vector<double>> y;
  for (const auto& row : x) y.push_back({-0.6 + 0.3 * row[0]});
  const TailFit fit(x, y);
  const auto at = draws_at_the_edge(fit, 2, 16, 4000, 2.5);
  REQUIRE(at.size() == 16);
  for (const auto& draw : at) {
    CHECK(fit.at(draw)[0] == Approx(0).margin(0.02));
    CHECK(std::abs(draw[1]) <= 2.5);
  }
  CHECK(at == draws_at_the_edge(fit, 2, 16, 4000, 2.5));
}
