// Where only chances stand against a stage another order is tried, and taken where its verdict is hotter.
#include "sequencer/planner/finalists.hpp"
#include "sequencer/planner/surer_orders.hpp"
#include "sequencer/sure/scenario_runs.hpp"
#include "tests/sequencer/going_on.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

StageSafety stage(int number, std::vector<Lacking> lacking) {
  StageSafety s;
  s.stage = number, s.lacking = std::move(lacking);
  return s;
}

Verdict verdict(std::vector<StageSafety> safety, std::optional<int> nominal) {
  Verdict v;
  v.nominal = nominal, v.safety = std::move(safety);
  return v;
}

Case small() {
  Case c = sample::aileron(3, 0.9);
  c.stages.resize(1);
  c.stages[0].doses = {1};
  c.target_nodes = 150;
  c.wanted.scenarios = 32;
  return c;
}

// A small plan from one order run in full and another beside it on the half mesh, both made by hand.
struct Bench {
  explicit Bench(Case c) : the_case(std::move(c)), full(the_case, {the_case.target_nodes}) {
    options.parallel = one_by_one;
    for (const Order& o : order_families(full.panel))
      if (o.id.is(Family::one_side) || o.id.is(Family::halving_by_strips)) orders.push_back(o);
  }
  Tried run(const Order& o, OrderModel model) const {
    return {o, replay(full, job.steps_for(full.panel, o), {}), model};
  }
  double shape(const Tried& t) const {
    return shape_of_order(the_case, t.result.planned, t.result.stages, 0, the_case.wanted.scenarios, options.parallel,
                          nullptr)
        .share();
  }

  Case the_case;
  Model full;
  PlanOptions options;
  Meter meter{{}, Accuracy::normal};
  PlanJob job{the_case, options, meter};
  std::vector<Order> orders;
};

}  // namespace

TEST_CASE("a stage is held back by chance where nothing but chances stands against the first that is not safe") {
  const auto damage = Lacking::damage, shape = Lacking::shape, loose = Lacking::tight;
  CHECK(held_back_by_chance(verdict({stage(0, {}), stage(1, {shape})}, 1)) == 1);
  CHECK(held_back_by_chance(verdict({stage(0, {damage, shape}), stage(1, {shape})}, 1)) == 0);
  CHECK_FALSE(held_back_by_chance(verdict({stage(0, {}), stage(1, {})}, 1)));
  CHECK_FALSE(held_back_by_chance(verdict({stage(0, {}), stage(1, {shape, loose})}, 1)));
  CHECK_FALSE(held_back_by_chance(verdict({stage(0, {}), stage(1, {Lacking::damage_unknown})}, 1)));
  CHECK_FALSE(held_back_by_chance(verdict({stage(0, {}), stage(1, {Lacking::as_stated})}, 0)));
  CHECK_FALSE(held_back_by_chance(verdict({stage(0, {Lacking::as_stated})}, {})));
}

TEST_CASE("an order that keeps the shape more surely takes the place of the best by score", "[slow]") {
  // Slack cloth on a slippery edge; the limit of slip is set so that the first order slides too far too often and the other
  // does not.
  Case c = small();
  c.cloth.looseness = {0.02, 0.02};
  c.blanket.edge_friction = c.blanket.rib_friction = 0.1;
  for (const double limit : {2.5e-3, 4.0e-3, 6.0e-3}) {
    c.limits.slip = limit;
    const Bench b(c);
    REQUIRE(b.orders.size() == 2);
    const Tried first = b.run(b.orders[0], OrderModel::between), other = b.run(b.orders[1], OrderModel::between);
    const double of_first = b.shape(first), of_other = b.shape(other);
    CAPTURE(limit, of_first, of_other);
    UNSCOPED_INFO("slip up to " << limit << ": " << of_first << ", " << of_other);
    if (of_first > 0.5 || of_other < of_first + 0.1) continue;
    PlanRuns runs;
    runs.ranking.met = {first, other};
    runs.full.push_back(b.run(b.orders[0], OrderModel::full));
    runs.verdict = verdict({stage(0, {Lacking::shape})}, 0);
    try_surer_orders(b.job, b.full, runs);
    REQUIRE(runs.full.size() == 2);
    CHECK(runs.full[1].order.id == b.orders[1].id);
    const bool hotter = runs.best == 1;
    CHECK(runs.verdict.ceiling().has_value() == hotter);
    return;
  }
  FAIL("no limit of slip tells the two orders apart");
}
