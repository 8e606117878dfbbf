// What the order and the dose do (docs/model.md, sections 3 and 8). That sides should alternate and that light passes
// come first is common practice, no source; the sizes of the effects are those of this model.
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

struct Ended {
  Way way;
  Readings end;
};

Ended first_stage(Job& j, const std::vector<int>& order, const std::vector<double>& doses, Covering* keep = nullptr) {
  Ended e;
  Covering s = j.ironing.begin();
  for (double dose : doses) REQUIRE(work(j, s, order, 250, dose, &e.way));
  e.end = j.read(s);
  if (keep) *keep = s;
  return e;
}

double sides_apart(const Panel& p, const Readings& r) {
  return std::abs(side_mean(p, r.zones.chord, Side::top) - side_mean(p, r.zones.chord, Side::bottom));
}

}  // namespace

TEST_CASE("all of one side first pulls the ends harder to one side, slips and twists more than alternating") {
  for (const Case& c : {sample::aileron(4, 1.2), sample::light_rudder(4)}) {
    Job j(one_zone_a_bay(c));
    const Ended one = first_stage(j, one_side_first(j.panel()), {1}), two = first_stage(j, alternating(j.panel()), {1});
    CHECK(one.way.difference_span > 1.5 * two.way.difference_span);
    CHECK(one.way.slip > two.way.slip);
    CHECK(one.way.twist > two.way.twist);
    CHECK(sides_apart(j.panel(), one.end) > 3 * sides_apart(j.panel(), two.end));
  }
}

// Alternating from root to tip is no easier on the frame than one side first: the last bay, whose neighbours are tight
// by then, pulls the tip rib out. Beginning in the middle is.
TEST_CASE("alternating from the middle outwards stresses the frame less than one side first", "[slow]") {
  for (const Case& c : {sample::aileron(6, 1.8), sample::light_rudder(6)}) {
    Job j(one_zone_a_bay(c));
    const Ended one = first_stage(j, one_side_first(j.panel()), {1}), two = first_stage(j, centre_out(j.panel()), {1});
    CHECK(two.way.use < 0.8 * one.way.use);
    CHECK(two.way.difference_span < 0.7 * one.way.difference_span);
  }
}

TEST_CASE("light passes before a full one even the pull and spare the frame") {
  Job j(one_zone_a_bay(sample::aileron(4, 1.2)));
  const Ended full = first_stage(j, alternating(j.panel()), {1});
  const Ended light = first_stage(j, alternating(j.panel()), {0.25, 0.25, 1});
  CHECK(light.end.unevenness < 0.7 * full.end.unevenness);
  CHECK(light.way.use < full.way.use);
  CHECK(light.way.slip < full.way.slip);
}

TEST_CASE("what a bad first stage did is still there after 350 F", "[slow]") {
  Job j(one_zone_a_bay(sample::aileron(4, 1.2)));
  Covering bad, good;
  const Ended bad_start = first_stage(j, one_side_first(j.panel()), {1}, &bad);
  first_stage(j, alternating(j.panel()), {1}, &good);
  for (double f : {300.0, 350.0}) {
    REQUIRE(work(j, bad, alternating(j.panel()), f, 1));
    REQUIRE(work(j, good, alternating(j.panel()), f, 1));
  }
  const double after_bad = sides_apart(j.panel(), j.read(bad)), after_good = sides_apart(j.panel(), j.read(good));
  CHECK(after_bad > 2 * after_good);
  CHECK(after_bad > 20);  // N/m: not a matter of rounding
  CHECK(after_bad > 0.3 * sides_apart(j.panel(), bad_start.end));
}

TEST_CASE("the pull may exceed what one setting gives at fixed length, and rises from stage to stage") {
  Job j(one_zone_a_bay(sample::aileron(3, 0.9)), 150);
  Covering s = j.ironing.begin();
  double last = 0;
  for (double f : {250.0, 300.0, 350.0}) {
    REQUIRE(work(j, s, alternating(j.panel()), f, 1));
    const Readings r = j.read(s);
    const double mean =
        0.5 * (side_mean(j.panel(), r.zones.chord, Side::top) + side_mean(j.panel(), r.zones.chord, Side::bottom));
    CHECK(mean > last + 50);
    last = mean;
  }
}
