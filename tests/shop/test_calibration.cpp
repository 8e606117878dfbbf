// The iron check: a fit against the closed forms of regression, and what it refuses.
#include "shop/calibration.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

double f(double degrees) { return (degrees + 459.67) / 1.8; }

// Invented readings of an invented iron.
std::vector<DialReading> readings() {
  return {{2, {f(205), f(221), f(212)}},
          {3, {f(255), f(268), f(262)}},
          {4, {f(301), f(320), f(312)}},
          {5, {f(352), f(369), f(360)}}};
}

}  // namespace

TEST_CASE("a straight dial comes back from its own readings") {
  std::vector<DialReading> r;
  for (double x : {1.0, 2.0, 4.0, 7.0}) r.push_back({x, {f(150 + 40 * x)}});
  const DialCurve c(r, 5);
  CHECK_FALSE(c.bent());
  CHECK(c.at(3) == Approx(f(270)));
  CHECK(c.plus_minus(3) < 1e-6);
  REQUIRE(c.mark_for(f(300)));
  CHECK(*c.mark_for(f(300)) == Approx(3.75));
}

TEST_CASE("line, scatter and band are those of the closed formulas of simple regression") {
  // b = Sxy/Sxx, a = mean y - b mean x, s^2 = SSE/(n - 2), band t s sqrt(1/n + (x - mean x)^2/Sxx); worked here from the
  // sums. t(0.975, 10) = 2.2281 from any table.
  const auto r = readings();
  double n = 0, sx = 0, sy = 0;
  for (const auto& m : r)
    for (double t : m.sole) n += 1, sx += m.dial, sy += t;
  double sxx = 0, sxy = 0, sse = 0;
  for (const auto& m : r)
    for (double t : m.sole) sxx += std::pow(m.dial - sx / n, 2), sxy += (m.dial - sx / n) * (t - sy / n);
  const double b = sxy / sxx, a = sy / n - b * sx / n;
  for (const auto& m : r)
    for (double t : m.sole) sse += std::pow(t - a - b * m.dial, 2);
  const double s = std::sqrt(sse / (n - 2));
  const DialCurve c(r, 5);
  REQUIRE_FALSE(c.bent());
  CHECK(c.at(4.3) == Approx(a + b * 4.3));
  CHECK(c.scatter() == Approx(s));
  CHECK(c.plus_minus(4.3) == Approx(2.2281 * s * std::sqrt(1 / n + std::pow(4.3 - sx / n, 2) / sxx)).epsilon(1e-4));
}

TEST_CASE("a bend is taken where the readings show one, and not otherwise") {
  std::vector<DialReading> bent;
  for (int x = 1; x <= 6; ++x)
    bent.push_back({double(x), {f(100 + 60 * x - 3.0 * x * x + (x % 2 ? 1 : -1)), f(100 + 60 * x - 3.0 * x * x)}});
  const DialCurve c(bent, 5);
  CHECK(c.bent());
  CHECK(c.at(3.5) == Approx(f(100 + 60 * 3.5 - 3 * 3.5 * 3.5)).margin(1));
  CHECK_FALSE(DialCurve(readings(), 5).bent());
}

TEST_CASE("two readings fix a line whose scatter is an assumption") {
  const DialCurve c({{2, {f(220)}}, {5, {f(340)}}}, 6);
  CHECK_FALSE(c.scatter_known());
  CHECK(c.scatter() == 6);
  CHECK(c.plus_minus(3.5) == Approx(1.95996 * 6 / std::sqrt(2.0)).epsilon(1e-4));
}

TEST_CASE("a stage gets its mark, its band and its warnings") {
  const DialCurve c(readings(), 5);
  const double swing = measured_swing(readings());
  CHECK(swing == Approx(19 / 2.0 / 1.8));
  const DialSetting s = setting_for_stage(c, f(300), swing);
  REQUIRE(s.mark);
  CHECK(c.at(*s.mark) == Approx(f(300)).margin(1 / 1.8));  // the mark is rounded, as it is printed
  CHECK(s.hottest - s.coolest == Approx(2 * (s.plus_minus + swing)));
  CHECK_FALSE(s.mean_in_damage);
  CHECK(setting_for_stage(c, f(372), swing).mean_in_damage);
  CHECK(setting_for_stage(c, f(365), 30 / 1.8).swing_in_damage);
  CHECK_FALSE(setting_for_stage(c, f(365), 5 / 1.8).swing_in_damage);
}

TEST_CASE("nothing is said of marks that were never read") {
  const DialCurve c(readings(), 5);
  CHECK_FALSE(setting_for_stage(c, f(150), 5).mark);
  CHECK_FALSE(setting_for_stage(c, f(399), 5).mark);
}

TEST_CASE("readings that do not rise are refused with the marks named") {
  auto r = readings();
  r[2].sole = {f(250)};
  CHECK_THROWS_WITH(DialCurve(r, 5), Catch::Contains("from mark 3 to mark 4") && Catch::Contains("read again"));
  CHECK_THROWS_WITH(DialCurve({{3, {f(260)}}}, 5), Catch::Contains("two marks"));
  CHECK_THROWS_AS(DialCurve({{3, {f(260)}}, {3, {f(270)}}}, 5), ReadingsError);
}

TEST_CASE("a mark is rounded to no more than a degree Fahrenheit, and its band is that of the mark as rounded") {
  for (const double scale : {0.01, 0.06, 1.0, 7.0, 50.0}) {  // what one dial calls 3 is 0.03 or 150 on another
    auto r = readings();
    for (auto& m : r) m.dial *= scale;
    const DialCurve c(r, 5);
    for (const double stage : {250.0, 300.0, 350.0}) {
      const DialSetting s = setting_for_stage(c, f(stage), 5);
      REQUIRE(s.mark);
      INFO(scale << ", " << stage << ": " << *s.mark << " of " << s.decimals << " decimals");
      const double unit = std::pow(10.0, -s.decimals);
      CHECK(*s.mark == Approx(unit * std::round(*s.mark / unit)).epsilon(1e-12));
      CHECK(std::abs(c.at(*s.mark) - f(stage)) <= 1 / 1.8);
      CHECK(0.5 * (s.hottest + s.coolest) == Approx(c.at(*s.mark)));
      // No finer than that asks for: with one decimal less it would be off by more than a degree at worst.
      if (s.decimals > 0) CHECK(5 * unit * c.slope(*s.mark) > 1 / 1.8);
    }
  }
}

TEST_CASE("marks that no dial shows apart are refused, and the message says how close that is") {
  CHECK_THROWS_WITH(DialCurve({{3, {f(250)}}, {3.0000000001, {f(350)}}}, 5),
                    Catch::Contains("marks 3 and 3.0000000001") && Catch::Contains("closer than 0.01"));
  CHECK_THROWS_AS(DialCurve({{0.3, {f(250)}}, {0.309, {f(350)}}}, 5), ReadingsError);
  CHECK_NOTHROW(DialCurve({{0.30, {f(250)}}, {0.31, {f(350)}}}, 5));
}
