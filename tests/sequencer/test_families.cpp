#include "sequencer/orders/families.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;

namespace {
Panel panel(int bays = 5) { return build_panel(sample::aileron(bays), {200}); }
}  // namespace

TEST_CASE("centre-out halving takes the middle of every gap in turn") {
  // Bisection of a line of 7 and of 8 places; worked by hand.
  CHECK(centre_out_halving(7) == std::vector<int>{3, 1, 5, 0, 2, 4, 6});
  CHECK(centre_out_halving(8) == std::vector<int>{3, 1, 5, 0, 2, 4, 6, 7});
  CHECK(centre_out_halving(1) == std::vector<int>{0});
  CHECK(centre_out_halving(0).empty());
}

TEST_CASE("jumping starts at one end, then the other, then the middle") {
  // FAA-H-8083-31, Aviation Maintenance Technician Handbook - Airframe, chapter 3: one end, the other, then between.
  const std::vector<int> order = jumping(7);
  CHECK(order[0] == 0);
  CHECK(order[1] == 6);
  CHECK(order[2] == 3);
  CHECK(order.size() == 7);
}

TEST_CASE("every family works every zone once") {
  for (int bays : {1, 2, 5, 6}) {
    const Panel p = panel(bays);
    for (const Order& o : order_families(p, 3)) {
      for (const std::vector<int>& stage : o.by_stage)
        CHECK(std::is_permutation(stage.begin(), stage.end(), o.zones.begin(), o.zones.end()));
      INFO(static_cast<int>(o.id.family) << ", " << bays << " bays");
      std::vector<int> zones = o.zones;
      std::sort(zones.begin(), zones.end());
      REQUIRE(zones.size() == p.zones.size());
      for (std::size_t i = 0; i < zones.size(); ++i) REQUIRE(zones[i] == static_cast<int>(i));
    }
  }
}

TEST_CASE("a run ends where the panel is turned over, and places count through the pass") {
  const Panel p = panel();
  const Case c = sample::aileron(5);
  const std::vector<Step> steps = steps_of(c, p, order_families(p).front());
  std::size_t passes = 0;
  for (const Stage& s : c.stages) passes += s.doses.size();
  REQUIRE(steps.size() == passes * p.zones.size());
  for (std::size_t i = 1; i < steps.size(); ++i) {
    const bool new_pass = steps[i].pass != steps[i - 1].pass || steps[i].stage != steps[i - 1].stage;
    if (new_pass) {
      CHECK(steps[i].place == 1);
      CHECK(steps[i].run == 1);
    } else {
      CHECK(steps[i].place == steps[i - 1].place + 1);
      const bool turned = p.zones[steps[i].zone].side != p.zones[steps[i - 1].zone].side;
      CHECK(steps[i].run == steps[i - 1].run + (turned ? 1 : 0));
    }
  }
}

TEST_CASE("centre-out halving in runs turns over after each run, and a run of half the bays is half a side") {
  Case c = sample::aileron(6);
  c.ribs[1].station *= 0.8;  // bays unlike in size
  const Panel p = build_panel(c, {150});
  REQUIRE(p.bays == 6);
  for (const Order& o : order_families(p)) {
    if (o.id.family != Family::halving_in_runs || o.id.bays_in_run != 3) continue;
    const std::vector<Step> steps = steps_of(c, p, o);
    CHECK(turn_overs_a_pass(steps, 0) == 3);
    CHECK(longest_run(p, steps, 0) <= 0.5 + 1e-9);
    return;
  }
  FAIL("no order in runs of three bays");
}

TEST_CASE("one side after the other turns over once a pass and once between passes") {
  const Panel p = panel();
  const Case c = sample::aileron(5);
  const std::vector<Step> steps = steps_of(c, p, order_families(p).front());
  CHECK(turn_overs(p, steps, 0) == 5);   // three passes: T|B, back, T|B, back, T|B
  CHECK(turn_overs(p, steps, 2) == 13);  // seven passes
}

TEST_CASE("cutting zones in two keeps the area and the order") {
  const Case c = sample::aileron(3);
  const Panel whole = build_panel(c, {800}), split = build_panel(c, {800, 2, 2});
  REQUIRE(split.strips == 2 * whole.strips);
  const std::vector<Step> steps = steps_of(c, whole, order_families(whole).front());
  const std::vector<Step> halves = split_steps(whole, split, steps);
  REQUIRE(halves.size() == 2 * steps.size());
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const double area = split.zones[halves[2 * i].zone].area + split.zones[halves[2 * i + 1].zone].area;
    CHECK(area == Approx(whole.zones[steps[i].zone].area).epsilon(1e-12));
    CHECK(halves[2 * i].dose == steps[i].dose);
  }
}

TEST_CASE("an order mirrored twice is itself, and a mirrored order works every zone once") {
  const Panel p = panel();
  for (const Order& o : order_families(p))
    for (bool sides : {false, true})
      for (bool ends : {false, true}) {
        const Order there = mirrored(p, o, sides, ends);
        CHECK(mirrored(p, there, sides, ends).zones == o.zones);
        CHECK((there.zones == o.zones) == (!sides && !ends));
      }
}
