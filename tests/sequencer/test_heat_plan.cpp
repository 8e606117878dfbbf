// How many passes it takes: sampling against what is known, and against common practice.
#include "sequencer/choice/heat_plan.hpp"
#include "sequencer/numbers/sobol.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

double f(double degrees) { return (degrees + 459.67) / 1.8; }

Case with_iron(double swing) {
  Case c = sample::aileron(6, 1.8, 0.35);
  c.iron.swing = swing;
  return c;
}

// Integral of prod 3/2 sqrt(u_i) over the unit cube: 1.
double error_of(int points) {
  double sum = 0;
  for (const auto& u : sobol_points(points, 4)) {
    double product = 1;
    for (double x : u) product *= 1.5 * std::sqrt(x);
    sum += product;
  }
  return std::abs(sum / points - 1);
}

}  // namespace

TEST_CASE("the error of quasi-random sampling falls nearly as one over the number") {
  // Plain random sampling would gain a factor of 8 from 64 times the points.
  CHECK(error_of(64 * 128) < error_of(128) / 20);
  CHECK(error_of(64 * 128) < 2e-3);
}

TEST_CASE("a shift leaves the points even, and the same seed gives the same points") {
  const auto a = sobol_points(256, 3, 7), b = sobol_points(256, 3, 7), c = sobol_points(256, 3, 8);
  CHECK(a == b);
  CHECK(a != c);
  for (int d = 0; d < 3; ++d) {
    double mean = 0;
    for (const auto& u : a) mean += u[d] / 256;
    CHECK(mean == Approx(0.5).margin(0.01));
  }
}

TEST_CASE("two passes do with a steady iron and three with an unsteady one at 300 and 350 degF") {
  // Common practice, no source. Steady: electronic control, +-4 K; unsteady: a household thermostat, +-18 K.
  for (const double stage : {300.0, 350.0}) {
    CHECK(count_passes(with_iron(4), f(stage), {}).least == 2);
    CHECK(count_passes(with_iron(18), f(stage), {}).least == 3);
  }
}

TEST_CASE("more passes never undo what is done, and a wider swing leaves more undone") {
  const PassCount steady = count_passes(with_iron(4), f(300), {}), unsteady = count_passes(with_iron(20), f(300), {});
  for (int i = 0; i < most_passes; ++i) {
    CHECK(steady.done[i] <= 1);
    CHECK(steady.done[i] + steady.error >= unsteady.done[i]);
    if (i > 0) CHECK(steady.done[i] >= steady.done[i - 1]);
    CHECK(steady.beyond[i] <= unsteady.beyond[i] + unsteady.error);
  }
  CHECK(steady.error < 0.02);
}

TEST_CASE("a perfect iron in a perfect hand does everything in one pass") {
  Case c = with_iron(0);
  c.iron.missed = c.iron.hand_scatter = c.spreads.sole = 0;
  const PassCount count = count_passes(c, f(300), {});
  CHECK(count.done[0] == 1);
  CHECK(count.least == 1);
  c.iron.missed = 0.25;  // what is missed in one pass is met in the next by chance
  const PassCount missed = count_passes(c, f(300), {});
  CHECK(missed.done[0] == Approx(0.75).margin(0.01));
  CHECK(missed.done[1] == Approx(1 - 0.25 * 0.25).margin(0.01));
}

TEST_CASE("zones over a metal nose that stay short of the dose are named") {
  const Case c = with_iron(8);
  const Panel p = build_panel(c, {});
  const auto heat = plan_heat(c, p);
  REQUIRE(heat.size() == c.stages.size());
  REQUIRE(heat[0].passes.size() == c.stages[0].doses.size());
  REQUIRE_FALSE(heat[0].short_zones.empty());
  for (const ShortZone& z : heat[0].short_zones) {
    CHECK(p.zones[z.zone].strip == 0);
    CHECK(z.dose < heat[0].passes.back().open.dose);
  }
}
