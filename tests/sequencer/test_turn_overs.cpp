// How many turn-overs a plan may ask for: at most so many in a pass, of those still to come.
#include "sequencer/orders/families.hpp"
#include "tests/sequencer/going_on.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>

using namespace evenpull;

namespace {

Case small() {
  Case c = sample::aileron(3, 0.9, 0.3);
  c.stages.resize(2);
  c.stages[0].doses = {1};
  c.stages[1].doses = {1, 1};
  return c;
}

PlanOptions at_most(int turn_overs) {
  PlanOptions o = quick_options(true);
  o.turn_overs = turn_overs;
  return o;
}

// Counted anew from sides, pass by pass: the most of any pass, of steps still to come.
int most_to_come(const Plan& plan) {
  std::map<std::pair<int, int>, int> in_pass;
  for (std::size_t i = 1; i < plan.steps.size(); ++i) {
    const Step &a = plan.steps[i - 1], &b = plan.steps[i];
    const bool turned = plan.panel.zones[a.zone].side != plan.panel.zones[b.zone].side;
    if (a.stage == b.stage && a.pass == b.pass && turned && !b.done) ++in_pass[{b.stage, b.pass}];
  }
  int most = 0;
  for (const auto& [pass, n] : in_pass) most = std::max(most, n);
  return most;
}

bool speaks_of_fewest(const Plan& plan) { return has_note<note::FewestTurnOvers>(plan); }

// The first stage whole and the next pass begun on alternating sides.
std::vector<Step> begun(const Case& c, const Panel& p, const std::vector<Side>& sides) {
  std::vector<Step> steps = steps_of(c, p, order_families(p)[0]);
  steps.resize(p.zones.size());
  std::map<Side, int> bay;
  for (const Side side : sides) {
    Step s;
    s.stage = 1, s.zone = p.zone(side, bay[side]++, 0);
    steps.push_back(s);
  }
  return steps;
}

}  // namespace

TEST_CASE("a plan makes no more turn-overs in a pass than are wanted") {
  for (const int wanted : {1, 2}) {
    const Plan plan = make_plan(small(), at_most(wanted));
    CHECK(most_to_come(plan) <= wanted);
    CHECK_FALSE(speaks_of_fewest(plan));
    for (const OrderResult& o : plan.orders) CHECK(o.turn_overs_a_pass <= wanted);
  }
}

TEST_CASE("no turn-over at all cannot be had: the orders with one are taken, and the plan says why") {
  const Plan none = make_plan(small(), at_most(0)), one = make_plan(small(), at_most(1));
  CHECK(most_to_come(none) == 1);
  CHECK(none.order == one.order);
  REQUIRE(has_note<note::FewestTurnOvers>(none));
  CHECK(note_in<note::FewestTurnOvers>(none).fewest == 1);
}

TEST_CASE("going on, only turn-overs still to come count, and those made before do not empty the list of orders") {
  const Case c = small();
  const Panel p = build_panel(c, {coarse_nodes});
  const auto done = as_order(c, p, begun(c, p, {Side::top, Side::bottom, Side::top, Side::bottom}));
  for (const int wanted : {1, 2}) {
    const Plan plan = make_plan_from(c, done, at_most(wanted));
    CHECK(plan.steps.size() == 3 * p.zones.size());
    CHECK(most_to_come(plan) <= wanted);
    CHECK_FALSE(speaks_of_fewest(plan));
  }
}

TEST_CASE("going on with one side of the last pass left needs no turn-over more") {
  const Case c = small();
  const Panel p = build_panel(c, {coarse_nodes});
  std::vector<Step> done = steps_of(c, p, order_families(p)[0]);
  done.resize(done.size() - p.zones.size() / 4);
  const Plan plan = make_plan_from(c, as_order(c, p, done), at_most(0));
  CHECK(most_to_come(plan) == 0);
  CHECK_FALSE((has_note<note::FewestTurnOvers>(plan) || has_note<note::TurnOversAgainstLoad>(plan)));
}

TEST_CASE("a limit on turn-overs that no order meets is told with the fewest there are") {
  // The rest of the pass begun lies on both sides in turn, so the rest of the pass cannot do with none.
  const Case c = small();
  const Panel p = build_panel(c, {coarse_nodes});
  const Plan plan = make_plan_from(c, as_order(c, p, begun(c, p, {Side::top})), at_most(0));
  CHECK(most_to_come(plan) == 1);
  REQUIRE(has_note<note::FewestTurnOvers>(plan));
  CHECK(note_in<note::FewestTurnOvers>(plan).fewest == 1);
}

TEST_CASE("turn-overs of a list of steps are those before steps that are not done") {
  const Case c = small();
  const Panel p = build_panel(c, {coarse_nodes});
  std::vector<Step> steps = begun(c, p, {Side::top, Side::bottom, Side::top, Side::bottom});
  number_steps(p, steps);
  CHECK(turn_overs_a_pass(steps, 1) == 3);
  CHECK(turn_overs_a_pass(steps, 0) == 1);
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) steps[i].done = true;
  CHECK(turn_overs_a_pass(steps, 1) == 1);
  CHECK(turn_overs(p, steps, 1) == 1);
  steps.back().done = true;
  CHECK(turn_overs_a_pass(steps, 1) == 0);
}
