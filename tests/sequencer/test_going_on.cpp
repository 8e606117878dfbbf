// Work half done: what is judged, what the cloth has met, how many turn-overs are still to come.
#include "sequencer/choice/choice.hpp"
#include "sequencer/choice/mid_work.hpp"
#include "sequencer/orders/order_trouble.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/sure/error_bars.hpp"
#include "solver/statement/errors.hpp"
#include "tests/sequencer/going_on.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;

namespace {

Case two_stages() {
  Case c = sample::aileron(3, 0.9, 0.3);
  c.stages.resize(2);
  c.stages[0].doses = {1};
  c.stages[1].doses = {1, 1};
  return c;
}

PlanOptions quick_rules() { return quick_options(true); }

// What an order is refused for; none: it was accepted.
std::optional<OrderTrouble::Kind> refusal(const std::function<void()>& work) {
  try {
    work();
    return {};
  } catch (const OrderError& e) {
    return e.trouble.kind;
  }
}

}  // namespace

TEST_CASE("a stage that is wholly done is computed and told, and not judged") {
  const Case c = two_stages();
  const Panel p = build_panel(c, {coarse_nodes});
  std::vector<Step> done = steps_of(c, p, order_families(p)[0]);
  done.resize(p.zones.size());
  const Plan plan = make_plan_from(c, as_order(c, p, done), quick_rules());
  REQUIRE(plan.stages.size() == 2);
  CHECK(plan.stages[0].mean_pull_chord[0] > 0);
  for (const LimitReading& l : plan.limits) CHECK(l.stage == 1);
  for (const Certificate& one : plan.certificates) CHECK_FALSE((one.stage == 0 && one.when == Moment::released));
}

TEST_CASE("the swing counts by the full passes that a zone was worked, whatever the case lists") {
  Case light = two_stages();
  light.stages.resize(1);
  light.stages[0].doses = {0.25, 1};
  light.iron.swing = 14;
  Case full = light;
  full.stages[0].doses = {1, 1};
  const Model by_light(light, {120}), by_full(full, {120});
  // Every zone is worked full in both passes: the list of the one case says so, that of the other does not.
  const std::vector<Step> steps = steps_of(full, by_full.panel, order_families(by_full.panel)[2]);
  const ReplayResult a = replay(by_light, steps, {}), b = replay(by_full, steps, {});
  for (std::size_t z = 0; z < by_full.panel.zones.size(); ++z)
    CHECK(a.stages[0].zone_pull[z] == b.stages[0].zone_pull[z]);
}

TEST_CASE("an order that gave way early is given the turn-overs that it plans, not those of the part computed") {
  // Few turn-overs in the first stage, at whose end this frame gives way, and many in the second, which is never come to.
  Case c = two_stages();
  for (Material& m : c.materials) m.youngs_modulus *= 0.03, m.shear_modulus *= 0.03;
  const Model m(c, {120});
  Tried t;
  t.order = order_families(m.panel)[0];
  t.order.by_stage = {t.order.zones, order_families(m.panel)[1].zones};
  const std::vector<Step> steps = steps_of(c, m.panel, t.order);
  t.result = replay(m, steps, {});
  REQUIRE(t.result.stages.back().buckled);
  REQUIRE(turn_overs_a_pass(t.result.steps, 1) < turn_overs_a_pass(steps, 1));
  const OrderResult r = summarise_up_to(t, m.panel, 1);
  CHECK(r.gave_way);
  CHECK(r.turn_overs_a_pass == turn_overs_a_pass(steps, 1));
  CHECK(r.turn_overs == turn_overs(m.panel, steps, 1));
}

TEST_CASE("an order that leaves out a stage is refused in one sentence") {
  const Case c = two_stages();
  const Panel p = build_panel(c, {coarse_nodes});
  std::vector<Step> steps = steps_of(c, p, order_families(p)[0]);
  steps.erase(steps.begin(), steps.begin() + static_cast<std::ptrdiff_t>(p.zones.size()));
  try {
    replay_order(c, as_order(c, p, steps), quick_rules());
    FAIL("accepted");
  } catch (const OrderError& e) {
    CHECK(e.key == "order");
    CHECK(e.trouble.kind == OrderTrouble::Kind::stage_left_out);
  }
}

TEST_CASE("work that is done to the end is refused, for nothing is left to plan") {
  const Case c = two_stages();
  const Panel p = build_panel(c, {coarse_nodes});
  const std::vector<Step> done = steps_of(c, p, order_families(p)[0]);
  CHECK(refusal([&] { make_plan_from(c, as_order(c, p, done), quick_rules()); }) == OrderTrouble::Kind::nothing_left);
}

TEST_CASE("a pass begun that the case does not have is refused, for nobody knows its dose") {
  const Case c = two_stages();
  const Panel p = build_panel(c, {coarse_nodes});
  std::vector<Step> done = steps_of(c, p, order_families(p)[0]);
  done.resize(1);
  done[0].pass = 3;
  CHECK(refusal([&] { make_plan_from(c, as_order(c, p, done), quick_rules()); }) ==
        OrderTrouble::Kind::pass_not_stated);
  done[0].pass = 0;
  CHECK_THROWS_AS(make_plan_from(c, as_order(c, p, done), quick_rules()), CaseError);
  done[0].pass = 1, done[0].dose = 0;
  CHECK_THROWS_AS(make_plan_from(c, as_order(c, p, done), quick_rules()), CaseError);
}

TEST_CASE("the runs behind the error bars judge no step that is done either") {
  Case c = two_stages();
  const Panel p = build_panel(c, {120});
  std::vector<Step> done = steps_of(c, p, order_families(p)[0]);
  done.resize(p.zones.size());
  const std::vector<Step> steps = go_on(c, p, done, order_families(p)[2]);
  for (const int parts : {1, 2}) {
    MeshOptions mesh{120};
    mesh.zone_parts = parts;
    const StudyRun r = run_for_study(c, mesh, p, steps, {});
    REQUIRE(r.stages.size() == 2);
    CHECK(r.stages[0].limits.empty());
    CHECK_FALSE(r.stages[1].limits.empty());
  }
}

TEST_CASE("no setting below a stage is offered to cloth that has met that stage already") {
  Case c = two_stages();
  const Panel p = build_panel(c, {coarse_nodes});
  for (Material& m : c.materials) m.strength *= 0.05;
  std::vector<Step> done = steps_of(c, p, order_families(p)[0]);
  done.resize(p.zones.size() + 1);
  const Plan plan = make_plan_from(c, as_order(c, p, done), quick_rules());
  CHECK(plan.ceiling == 0);
  CHECK_FALSE(plan.setting.has_value());
}

TEST_CASE("going on after a whole stage with error bars: the bounds begin with the first stage that is judged",
          "[slow]") {
  Case c = two_stages();
  c.target_nodes = 120;
  c.wanted.scenarios = 0;
  const Panel p = build_panel(c, plan_mesh(c, Accuracy::normal));
  std::vector<Step> done = steps_of(c, p, order_families(p)[0]);
  done.resize(p.zones.size());
  PlanOptions o = quick_rules();
  o.accuracy = Accuracy::normal;
  const Plan plan = make_plan_from(c, as_order(c, p, done), o);
  REQUIRE(plan.bounds.size() == 2);
  for (const BoundRun& b : plan.bounds) {
    CHECK(b.first_stage == 1);
    CHECK(b.worst_use.size() == 1);
  }
  // What was worked before is told from all meshes, too.
  REQUIRE(plan.stages[0].slip_study.mesh.size() > 1);
  CHECK(plan.stages[0].slip_study.extrapolated > 0);
}

TEST_CASE("an order is not compared a second time under the name of its mirror's mirror") {
  const Case c = two_stages();
  const Panel p = build_panel(c, {coarse_nodes});
  std::vector<Step> done = steps_of(c, p, order_families(p)[0]);
  done.resize(p.zones.size());
  PlanOptions o = quick_rules();
  o.turn_overs = 1;
  const Plan plan = make_plan_from(c, as_order(c, p, done), o);
  for (const OrderResult& r : plan.orders) CHECK(r.order.mirrored.size() <= 1);
}
