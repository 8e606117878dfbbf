#include "sequencer/orders/order_trouble.hpp"
#include "sequencer/planner/planner.hpp"
#include "solver/statement/errors.hpp"
#include "tests/sequencer/going_on.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

// Small and quick: three bays, two stages, one pass each.
Case small() {
  Case c = sample::aileron(3, 0.9, 0.3);
  c.stages.resize(2);
  c.stages[0].doses = {0.25, 1};
  c.stages[1].doses = {1};
  return c;
}

// The orders that can be said in a sentence; the search has tests of its own.
PlanOptions quick() { return quick_options(true); }

}  // namespace

TEST_CASE("a plan has a step for every zone of every pass and a snapshot for every step") {
  const Plan p = make_plan(small(), quick());
  CHECK(p.steps.size() == 3 * p.panel.zones.size());
  CHECK(p.snapshots.size() == p.steps.size() + 1);
  CHECK(p.stages.size() == 2);
  CHECK(p.solve.worst_residual < 1e-3);
  int chosen = 0;
  for (const OrderResult& o : p.orders) chosen += o.chosen ? 1 : 0;
  CHECK(chosen == 1);
}

TEST_CASE("every limit of a plan is finite and its use follows from value and allowed") {
  const Plan p = make_plan(small(), quick());
  REQUIRE_FALSE(p.limits.empty());
  for (const LimitReading& l : p.limits) {
    INFO(static_cast<int>(l.limit));
    REQUIRE(std::isfinite(l.use));
    REQUIRE(l.allowed > 0);
    const double use = l.limit == Limit::buckling ? l.allowed / l.value : l.value / l.allowed;
    CHECK(l.use == Approx(use).margin(1e-5));
  }
}

TEST_CASE("replaying a plan's own order gives the plan's own readings") {
  const Plan p = make_plan(small(), quick());
  const Plan again = replay_order(small(), as_order(p.the_case, p.panel, p.steps), quick());
  REQUIRE(again.limits.size() == p.limits.size());
  for (std::size_t i = 0; i < p.limits.size(); ++i) CHECK(again.limits[i].use == p.limits[i].use);
  CHECK(again.replayed);
  CHECK(again.ceiling == p.ceiling);
}

TEST_CASE("an order run beside a plan reads as the plan does, and calls nothing safe") {
  const Plan p = make_plan(small(), quick());
  const Plan beside = run_beside(p.the_case, as_order(p.the_case, p.panel, p.steps), quick());
  REQUIRE(beside.snapshots.size() == p.snapshots.size());
  for (std::size_t i = 0; i < p.snapshots.size(); ++i) {
    CHECK(beside.snapshots[i].twist == p.snapshots[i].twist);
    CHECK(beside.snapshots[i].edge_slip == p.snapshots[i].edge_slip);
  }
  REQUIRE(beside.orders.size() == 1);
  CHECK(beside.orders[0].chosen);
  CHECK_FALSE(beside.orders[0].gave_way);
  CHECK(beside.orders[0].worst_use > 0);
  CHECK_FALSE(beside.ceiling.has_value());
  CHECK_FALSE(beside.nominal.has_value());
}

TEST_CASE("a plan is the same on any number of threads") {
  PlanOptions backwards = quick_options();
  backwards.parallel = [](int n, const std::function<void(int)>& work) {
    for (int i = n - 1; i >= 0; --i) work(i);
  };
  const Plan a = make_plan(small(), quick_options()), b = make_plan(small(), backwards);
  REQUIRE(a.limits.size() == b.limits.size());
  for (std::size_t i = 0; i < a.limits.size(); ++i) CHECK(a.limits[i].use == b.limits[i].use);
  CHECK(a.order == b.order);
  CHECK(a.snapshots.back().pull_major == b.snapshots.back().pull_major);
}

TEST_CASE("an order that names a bay the panel lacks is refused with the bay and how many there are") {
  std::vector<OrderStep> order = {{small().stages[0].temperature, 1, Side::top, 9, 1, 1.0}};
  try {
    replay_order(small(), order, quick());
    FAIL("accepted");
  } catch (const OrderError& e) {
    CHECK(e.key == "order");
    CHECK(e.trouble.kind == OrderTrouble::Kind::no_such_bay);
    CHECK(e.trouble.number == 9);
    CHECK(e.trouble.most == build_panel(small(), {}).bays);
  }
}

TEST_CASE("an order whose temperature falls is refused") {
  const Case c = small();
  CHECK_THROWS_AS(
      replay_order(
          c, {{c.stages[1].temperature, 1, Side::top, 1, 1, 1.0}, {c.stages[0].temperature, 1, Side::top, 1, 1, 1.0}},
          quick()),
      CaseError);
}

TEST_CASE("a structure far too light has no safe stage") {
  Case c = small();
  for (Material& m : c.materials) m.strength *= 0.02;
  const Plan p = make_plan(c, quick());
  CHECK_FALSE(p.ceiling.has_value());
  CHECK_FALSE(p.advice.items.empty());
  CHECK_FALSE(p.setting.has_value());
}

TEST_CASE("the full plan carries error bars, bounds and the setting between stages", "[slow]") {
  Case c = small();
  c.target_nodes = 400;
  c.wanted.scenarios = 24;
  c.wanted.damage_chance = 0.2, c.wanted.confidence = 0.5;  // so few scenarios know no more
  // Strength chosen so that the first stage holds and the second does not.
  const Plan probe = make_plan(c, quick());
  double first = 0, second = 0;
  for (const LimitReading& l : probe.limits)
    if (l.limit == Limit::stress) (l.stage == 0 ? first : second) = l.use;
  REQUIRE(first < second);
  for (Material& m : c.materials) m.strength *= std::sqrt(first * second);
  const Plan p = make_plan(c, {});
  for (const LimitReading& l : p.limits)
    UNSCOPED_INFO(static_cast<int>(l.limit) << " " << l.stage << " " << l.use << " +- " << l.use_plus_minus);
  for (const StageSafety& s : p.safety)
    for (const Lacking l : s.lacking) UNSCOPED_INFO("stage " << s.stage << " lacks " << static_cast<int>(l));
  UNSCOPED_INFO("damage " << p.chances.damage[0].fitted << ", counted " << p.chances.damage[0].counted.hits << " of "
                          << p.chances.scenarios << ", edge scatter " << p.chances.edge.scatter << " beside "
                          << p.chances.edge.fit_scatter << "; shape " << p.chances.shape[0].hits);
  REQUIRE(p.ceiling == 0);
  CHECK(p.solve.mesh_change.has_value());
  CHECK(p.solve.zone_change.has_value());
  CHECK(p.bounds.size() == 2);
  REQUIRE(p.study.size() == 4);  // three meshes, and halved zones on one of them
  CHECK(p.study[0].edge > p.study[1].edge);
  CHECK(p.study[1].edge > p.study[2].edge);
  CHECK(p.study[3].zone_parts == 2);
  for (const StageSummary& stage : p.stages) {
    CHECK(stage.pull_chord_study[0].mesh.size() == 3);
    CHECK(stage.pull_chord_study[0].mesh.back().value == stage.mean_pull_chord[0]);
    CHECK(stage.slip_study.mesh.back().value == stage.worst_slip);
  }
  REQUIRE(p.setting.has_value());
  CHECK(*p.setting > c.stages[0].temperature);
  CHECK(*p.setting < c.stages[1].temperature);
  for (const LimitReading& l : p.limits) {
    INFO(static_cast<int>(l.limit));
    REQUIRE(l.study.mesh.size() == 3);
    CHECK(l.study.mesh.back().value == l.use);
    CHECK(l.use_plus_minus == Approx(l.study.plus_minus()));
    if (l.limit == Limit::stress) CHECK(l.use_plus_minus > 0);
  }
}
