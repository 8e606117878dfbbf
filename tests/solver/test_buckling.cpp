// The buckling factor of a covered panel (docs/model.md, section 5). Columns in closed form: tests/published.
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// All pulls and the members' compression scaled, the shape kept.
Covering scaled(Covering s, double factor) {
  for (Tension& t : s.tension) t.pull *= factor, t.wrinkle /= factor;
  for (double& a : s.axial) a *= factor;
  return s;
}

Covering after_first_stage(Job& j) {
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, alternating(j.panel()), 250, 1));
  REQUIRE(j.ironing.settle(s, "settled").outcome == Outcome::settled);
  return s;
}

}  // namespace

TEST_CASE("the buckling factor is above one in every accepted state and falls as the pull grows") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  Covering s = j.ironing.begin();
  double last = INFINITY;
  for (double f : {250.0, 300.0}) {
    REQUIRE(work(j, s, alternating(j.panel()), f, 1));
    REQUIRE(j.ironing.settle(s, "settled").outcome == Outcome::settled);
    const double factor = j.ironing.buckling_factor(s);
    CHECK(factor > 1);
    CHECK(factor < last);
    last = factor;
  }
}

TEST_CASE("twice the pull, half the buckling factor") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  const Covering s = after_first_stage(j);
  const double one = j.ironing.buckling_factor(s);
  REQUIRE(one > 3);  // room for twice the pull
  CHECK(j.ironing.buckling_factor(scaled(s, 2)) == Approx(one / 2).epsilon(0.1));
  CHECK(j.ironing.buckling_factor(scaled(s, 0.5)) == Approx(one * 2).epsilon(0.1));
}

TEST_CASE("cloth without pull buckles nothing") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  CHECK(j.ironing.buckling_factor(laid_on(j.model)) > 1e4);
}

TEST_CASE("the buckled shape is stiff by nothing: elastic and geometric parts cancel on it") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  const Covering s = after_first_stage(j);
  Equilibrium e(j.model, {});
  Eigen::VectorXd mode;
  const double factor = e.buckling_factor(s, &mode);
  REQUIRE(mode.size() == j.model.unknowns.count);
  for (int i : j.model.held[0]) CHECK(std::abs(mode[i]) < 1e-12);
  CHECK(mode.norm() > 0);
  CHECK(factor == Approx(j.ironing.buckling_factor(s)).epsilon(0.01));
}

TEST_CASE("a frame far too light is said to buckle, not solved as if it stood") {
  Case c = one_zone_a_bay(sample::light_rudder(3));
  // A tube of straw, invented.
  c.span_members[1].make.shape.outside_diameter = 4e-3;
  c.span_members[1].make.shape.wall = 0.2e-3;
  for (Rib& r : c.ribs) r.make.shape.outside_diameter = 4e-3, r.make.shape.wall = 0.2e-3;
  Job j(c, 150);
  Covering s = j.ironing.begin();
  bool stood = true;
  for (double f : {250.0, 300.0, 350.0}) {
    stood = stood && work(j, s, alternating(j.panel()), f, 1);
    stood = stood && j.ironing.settle(s, "settled").outcome == Outcome::settled;
    if (!stood) break;
  }
  CHECK((!stood || j.ironing.buckling_factor(s) < 2));
}
