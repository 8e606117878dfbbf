// Is it the way or the end that is too much, and does a stage in between open the way?
#include "sequencer/choice/extra_stage.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

StageVerdict verdict(int stage, double stress, double end_use, double unevenness = 0.1) {
  StageVerdict v;
  v.stage = stage;
  v.end_use = end_use;
  for (const auto& [limit, use] :
       {std::make_pair(Limit::stress, stress), std::make_pair(Limit::unevenness, unevenness)}) {
    LimitReading l;
    l.limit = limit, l.stage = stage, l.use = l.value = use, l.allowed = 1;
    v.limits.push_back(l);
  }
  return v;
}

Case two_bays() {
  Case c = sample::aileron(2, 0.6, 0.3);
  c.stages.resize(2);
  c.stages[0].doses = c.stages[1].doses = {1};
  return c;
}

Order usual(const Case& c) { return order_families(build_panel(c, {coarse_nodes}))[1]; }

}  // namespace

TEST_CASE("an extra stage opens the way where it and the stage after it hold, the bar counted in full") {
  const StageVerdict before = verdict(0, 0.5, 0.5);
  CHECK(opens_the_way({before, verdict(1, 0.8, 0.7), verdict(2, 0.95, 0.9)}, 1, 1.0));
  CHECK_FALSE(opens_the_way({before, verdict(1, 0.8, 0.7), verdict(2, 1.01, 0.9)}, 1, 1.0));
  CHECK_FALSE(opens_the_way({before, verdict(1, 1.01, 0.7), verdict(2, 0.95, 0.9)}, 1, 1.0));
  CHECK_FALSE(opens_the_way({before, verdict(1, 0.8, 0.7), verdict(2, 0.95, 0.9)}, 1, 1.1));
  // A full model that reads lower than the coarse one is no reason to trust the coarse one's good news more.
  CHECK_FALSE(opens_the_way({before, verdict(1, 0.8, 0.7), verdict(2, 1.01, 0.9)}, 1, 0.9));
}

TEST_CASE("a trial with an extra stage that did not come to its end, or gave way there, opens nothing") {
  StageVerdict gave_way = verdict(2, 0.5, 0.5);
  gave_way.buckled = true;
  CHECK_FALSE(opens_the_way({verdict(0, 0.5, 0.5), verdict(1, 0.5, 0.5), gave_way}, 1, 1.0));
  CHECK_FALSE(opens_the_way({verdict(0, 0.5, 0.5), verdict(1, 0.5, 0.5)}, 1, 1.0));
  CHECK_FALSE(opens_the_way({}, 0, 1.0));
}

TEST_CASE("what fails on the way is told from what is too much at the end") {
  const Case c = two_bays();
  const WayThere way = way_there(c, usual(c), {}, verdict(1, 1.3, 0.6), verdict(1, 1.3, 0.6));
  CHECK(way.fails_on_the_way);
  const WayThere end = way_there(c, usual(c), {}, verdict(1, 1.3, 1.2), verdict(1, 1.3, 1.2));
  CHECK_FALSE(end.fails_on_the_way);
  // Its error bar may be what is too much at the end.
  CHECK_FALSE(way_there(c, usual(c), {}, verdict(1, 1.3, 0.6), verdict(1, 0.7, 0.6)).fails_on_the_way);
}

TEST_CASE("an extra stage is advised where the job with it holds, and refused where the end is too much") {
  Case c = two_bays();
  c.limits.bow_per_spacing = c.limits.twist = c.limits.slip = c.limits.unevenness = 10;  // so that stress decides
  c.limits.buckling_factor = 1e-3;
  for (Material& m : c.materials) m.strength *= 10;
  const StageVerdict fails = verdict(1, 1.1, 0.9);
  const WayThere opened = way_there(c, usual(c), {}, fails, fails);
  REQUIRE(opened.extra_stage.has_value());
  CHECK(*opened.extra_stage > c.stages[0].temperature);
  CHECK(*opened.extra_stage == Approx((275 + 459.67) / 1.8));  // halfway, to what a dial can tell apart
  for (Material& m : c.materials) m.strength *= 1e-3;
  CHECK_FALSE(way_there(c, usual(c), {}, fails, fails).extra_stage.has_value());
}

TEST_CASE("a stage that was begun already gets none before it, and one that buckles is not spoken of") {
  const Case c = two_bays();
  const StageVerdict fails = verdict(1, 1.1, 0.9);
  Step begun;
  begun.stage = 1, begun.done = true;
  CHECK_FALSE(way_there(c, usual(c), {begun}, fails, fails).extra_stage.has_value());
  StageVerdict buckled = fails;
  buckled.buckled = true;
  const WayThere w = way_there(c, usual(c), {}, buckled, buckled);
  CHECK(w.gives_way);
}
