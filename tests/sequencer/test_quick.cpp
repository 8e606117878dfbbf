// A quick plan takes fewer steps and not fewer kinds of orders.
#include "sequencer/choice/choice.hpp"
#include "tests/sequencer/going_on.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;

namespace {

// Narrow bays at the root, a wide one at the tip, whose rib is loaded most: which end comes first decides. Invented.
Case uneven_bays() {
  Case c = sample::light_rudder(3);
  c.ribs[1].station = 0.3, c.ribs[2].station = 0.8;
  c.stages.resize(1);
  c.stages[0].doses = {1};
  for (Material& m : c.materials) m.strength *= 3;
  return c;
}

double score(const Model& m, const Order& o) {
  Tried t;
  t.order = o;
  t.result = replay(m, steps_of(m.the_case, m.panel, o), {});
  return score_of(summarise_up_to(t, m.panel, 0), Prices{});
}

}  // namespace

TEST_CASE("with coats that tauten no stage is called safe or held, and nothing is printed to be ironed") {
  Case c = uneven_bays();
  const Plan plain = make_plan(c, quick_options(true));
  REQUIRE(plain.ceiling);
  c.finish = FinishKind::tautening;
  const Plan plan = make_plan(c, quick_options(true));
  CHECK_FALSE(plan.ceiling);
  CHECK_FALSE(plan.setting);
  CHECK(plan.windows.empty());
  CHECK(plan.advice.up_to == Advice::UpTo::coats_tauten);
  for (const StageSafety& s : plan.safety) CHECK(s.lacking == std::vector<Lacking>{Lacking::coats});
  CHECK(plan.limits.size() == plain.limits.size());  // what was computed is told all the same
}

TEST_CASE("a quick plan scores as well as the best rule, begun from either end") {
  const Case c = uneven_bays();
  const Model m(c, {coarse_nodes});
  double as_said = 1e9, in_mirror = 1e9;
  for (const Order& o : order_families(m.panel)) {
    if (longest_run(m.panel, steps_of(c, m.panel, o), 0) > 0.5 + 1e-9) continue;  // set aside whatever it scores
    as_said = std::min(as_said, score(m, o));
    in_mirror = std::min(in_mirror, score(m, mirrored(m.panel, o, false, true)));
  }
  const Plan plan = make_plan(c, quick_options(true));
  const auto chosen =
      std::find_if(plan.orders.begin(), plan.orders.end(), [](const OrderResult& o) { return o.chosen; });
  REQUIRE(chosen != plan.orders.end());
  INFO(static_cast<int>(chosen->order.family)
       << ": " << score_of(*chosen, Prices{}) << "; rules as said " << as_said << ", from the other end " << in_mirror);
  CHECK(score_of(*chosen, Prices{}) <=
        std::min(as_said, in_mirror) + 0.01);  // less is no reason to begin at the other end
}
