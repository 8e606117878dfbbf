// Hours at the bench, by hand: invented numbers.
#include "sequencer/orders/families.hpp"
#include "sequencer/plan/job_time.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

// One stage of one full pass that stays 3 s on each spot, by a sole that covers 0.016 m^2 a spot.
struct Bench {
  Case c = sample::aileron(3, 0.9, 0.3);
  Panel p;
  std::vector<Step> steps;
  std::vector<StageHeat> heat;
  Bench() {
    c.stages.resize(1);
    c.stages[0].doses = {1};
    c.both_sides_reachable = false;
    c.iron.sole_length = 0.2, c.iron.sole_width = 0.1, c.iron.overlap = 0.2;
    c.wanted.turn_over_time = 90, c.wanted.check_time = 500;
    p = build_panel(c, {120});
    steps = steps_of(c, p, order_families(p).front());
    heat.resize(1);
    heat[0].passes.resize(1);
    heat[0].passes[0].open.contact = 3;
  }
  std::vector<StageTime> times() const { return stage_times(c, p, steps, heat, 0); }
};

}  // namespace

TEST_CASE("a pass takes the area over what the sole covers, times the contact; turn-overs and the wait are added") {
  Bench b;
  double area = 0;
  for (const Zone& z : b.p.zones) area += z.area;
  const auto t = b.times();
  REQUIRE(t.size() == 1);
  CHECK(t[0].ironing == Approx(area / 0.016 * 3));
  CHECK(t[0].turn_overs == turn_overs(b.p, b.steps, 0));
  CHECK(t[0].turning == 90.0 * t[0].turn_overs);
  CHECK(t[0].all() == Approx(t[0].ironing + t[0].turning + 500));
}

TEST_CASE("what is done takes no time, and where both sides can be reached nothing is turned over") {
  Bench b;
  const double all = b.times()[0].ironing;
  for (std::size_t i = 0; i < b.steps.size() / 2; ++i) b.steps[i].done = true;
  CHECK(b.times()[0].ironing < 0.7 * all);
  b.c.both_sides_reachable = true;
  CHECK(b.times()[0].turn_overs == 0);
  for (Step& s : b.steps) s.done = true;
  CHECK(b.times().empty());
}

TEST_CASE("the longest run of an order that works one side first is the whole side, of one that alternates a bay") {
  const Bench b;
  for (const Order& o : order_families(b.p)) {
    const double run = longest_run(b.p, steps_of(b.c, b.p, o), 0);
    if (o.id.is(Family::one_side)) CHECK(run == Approx(1));
    if (o.id.is(Family::root_to_tip)) CHECK(run <= 2.0 / b.p.bays + 0.1);
  }
}
