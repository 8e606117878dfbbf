// What happens when a run finds no equilibrium: it drops out, the plan says so and goes on with the others.
#include "sequencer/choice/pass_choice.hpp"
#include "sequencer/orders/families.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/replay/trial_runs.hpp"
#include "tests/sequencer/going_on.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <stdexcept>

using namespace evenpull;

namespace {

Case small() {
  Case c = sample::aileron(3, 0.9, 0.3);
  c.stages.resize(2);
  c.stages[0].doses = {1};
  c.stages[1].doses = {1};
  c.target_nodes = 400;
  c.wanted.scenarios = 0;
  return c;
}

NotConverged no_equilibrium() {
  return {"no equilibrium was found",
          "as injected",
          7,
          {"largest force out of balance", 1.0, 1e-3, "N"},
          "try another mesh"};
}

using Kind = RunId::Kind;

// Every run of which this is true fails.
BeforeRun failing(std::function<bool(const RunId&)> which) {
  return [which](const RunId& run) {
    if (which(run)) throw no_equilibrium();
  };
}
BeforeRun failing(Kind kind) {
  return failing([kind](const RunId& r) { return r.kind == kind; });
}
BeforeRun failing(Kind kind, std::vector<OrderId> orders) {
  return failing([=](const RunId& r) {
    return r.kind == kind && std::find(orders.begin(), orders.end(), r.order) != orders.end();
  });
}

bool lists(const Plan& p, const OrderId& order) {
  return std::any_of(p.orders.begin(), p.orders.end(), [&](const OrderResult& o) { return o.order == order; });
}

// Whether the plan says that a run of this kind was left out.
bool tells_of(const Plan& p, Kind kind) {
  const auto& runs = note_in<note::LeftOut>(p).runs;
  return std::any_of(runs.begin(), runs.end(), [&](const RunId& r) { return r.kind == kind; });
}

}  // namespace

TEST_CASE("runs that find no equilibrium are named by their number, whatever thread comes first; other errors go on") {
  TrialRuns runs(4, {});
  for (const std::size_t i : {3, 1, 0, 2})
    runs.run(i, {i % 2 == 1 ? Kind::passes : Kind::search, {}, static_cast<int>(i)}, [&] {
      if (i % 2 == 1) throw NotConverged("none", "run " + std::to_string(i), 1, {}, "");
    });
  REQUIRE(runs.unsolved().size() == 2);
  CHECK(runs.unsolved()[0].stage == 1);
  CHECK(runs.unsolved()[1].stage == 3);
  CHECK(runs.solved(2));
  REQUIRE(runs.first_failure().has_value());
  CHECK(runs.first_failure()->where.what == "run 1");
  CHECK_THROWS_AS(TrialRuns(1, {}).run(0, {}, [] { throw std::logic_error("ours"); }), std::logic_error);
}

TEST_CASE("an order that finds no equilibrium on the coarse mesh is left out by name, the others are compared") {
  PlanOptions o = quick_options(true);
  o.before_run = failing(Kind::coarse_order, {{Family::jumping}});
  const Plan p = make_plan(small(), o);
  CHECK_FALSE(lists(p, {Family::jumping}));
  CHECK(lists(p, {Family::root_to_tip}));
  CHECK(note_in<note::LeftOut>(p).runs.at(0).order == OrderId{Family::jumping});
}

TEST_CASE("where the order that would be chosen finds no equilibrium in full the next best is, and the note says why") {
  PlanOptions o = quick_options(true);
  const Plan first = make_plan(small(), o);
  o.before_run = failing(Kind::full_order, {first.order});
  const Plan second = make_plan(small(), o);
  CHECK_FALSE(second.order == first.order);
  CHECK_FALSE(lists(second, first.order));
  CHECK(tells_of(second, Kind::full_order));
  // All finalists fail: those behind them are run.
  std::vector<OrderId> finalists;
  for (const OrderResult& r : first.orders)
    if (r.model == OrderModel::full) finalists.push_back(r.order);
  o.before_run = failing(Kind::full_order, finalists);
  const Plan third = make_plan(small(), o);
  CHECK(std::find(finalists.begin(), finalists.end(), third.order) == finalists.end());
}

TEST_CASE("where no order is left there is no plan") {
  PlanOptions o = quick_options(true);
  for (const Kind which : {Kind::coarse_order, Kind::full_order}) {
    o.before_run = failing(which);
    CHECK_THROWS_AS(make_plan(small(), o), NotConverged);
  }
}

TEST_CASE("a search that finds no equilibrium leaves the rules to be compared") {
  PlanOptions o = quick_options();
  o.before_run = failing(Kind::search);
  const Plan p = make_plan(small(), o);
  CHECK(p.searched.empty());
  CHECK(p.order.family != Family::none);
  CHECK(tells_of(p, Kind::search));
}

TEST_CASE("a search for the rest of a pass that finds no equilibrium leaves the rules to go on by") {
  const Case c = small();
  const Panel p = build_panel(c, {coarse_nodes});
  std::vector<Step> done = steps_of(c, p, order_families(p)[2]);
  done.resize(3);
  PlanOptions o = quick_options();
  o.before_run = failing(Kind::search_rest);
  const Plan plan = make_plan_from(c, as_order(c, p, done), o);
  CHECK(plan.steps.size() == 2 * p.zones.size());
  CHECK(tells_of(plan, Kind::search_rest));
}

TEST_CASE("ways to pass that find no equilibrium are not chosen, and where none does the case keeps its passes") {
  Case c = small();
  c.stages.resize(1);
  c.stages[0].passes_open = true;
  c.iron.swing = 2, c.iron.hand_scatter = 0.05;
  const PassChoice all = choose_passes(c, one_by_one);
  REQUIRE(all.trials.size() > 2);
  CHECK(all.unsolved.empty());
  const PassChoice some = choose_passes(c, one_by_one, failing([](const RunId& r) {
                                          return r.kind == Kind::passes && r.doses.front() == 1;
                                        }));  // full passes only
  CHECK(some.unsolved.size() == 1);
  CHECK(some.trials.size() + 1 >= all.trials.size());
  for (const PassTrial& t : some.trials) CHECK(t.doses.front() < 1);
  CHECK_FALSE(pass_gains(c, some.trials).stages.at(0).use_without.has_value());
  const PassChoice plain = choose_passes(c, one_by_one, failing([](const RunId& r) {
                                           return r.kind == Kind::passes && r.doses.front() < 1;
                                         }));  // no light ones
  CHECK(plain.trials.size() == 1);
  CHECK(pass_gains(c, plain.trials).stages.at(0).what == note::PassGain::What::full_light_unsolved);
  const PassChoice none = choose_passes(c, one_by_one, failing(Kind::passes));
  CHECK(none.trials.empty());
  CHECK(none.the_case.stages[0].doses.front() == c.stages[0].doses.front());
  CHECK(none.unsolved.size() > 2);
}

TEST_CASE(
    "where the trial that says at which stage the job may end finds no equilibrium every open stage gets enough "
    "passes") {
  Case c = small();
  for (Stage& s : c.stages) s.passes_open = true;
  c.iron.swing = 14;
  const PassChoice out = with_enough_full_passes(c, failing(Kind::last_stage));
  for (const Stage& s : out.the_case.stages) CHECK(s.doses.size() > 1);
  CHECK(out.unsolved.size() == 1);
}

TEST_CASE("a replay that finds no equilibrium throws, or keeps the stages before where that is wished") {
  const Case c = small();
  const Model m(c, {120});
  const std::vector<Step> steps = steps_of(c, m.panel, order_families(m.panel)[0]);
  ReplayOptions options;
  Ironing ironing(m);
  options.heat = [&](const Step& s, std::size_t) {
    if (s.stage == 1) throw no_equilibrium();
    return ironing.heat(s.stage, s.pass, s.dose, 1);
  };
  CHECK_THROWS_AS(replay(m, steps, options), NotConverged);
  options.unsolved_ends_it = true;
  const ReplayResult r = replay(m, steps, options);
  REQUIRE(r.unsolved.has_value());
  CHECK(r.unsolved->where.what == "as injected");
  REQUIRE(r.stages.size() == 1);
  CHECK(r.planned.size() == steps.size());
}

TEST_CASE("a run behind the error bars that finds no equilibrium makes the stage unsafe and narrows no bar", "[slow]") {
  Case c = small();  // with every limit far away
  c.target_nodes = 120;
  c.limits.bow_per_spacing = c.limits.twist = c.limits.slip = c.limits.unevenness = 10;
  c.limits.buckling_factor = 0.1;
  for (Material& m : c.materials) m.strength *= 10;
  PlanOptions o;
  o.only_rules = true;
  const Plan whole = make_plan(c, o);
  REQUIRE(whole.ceiling.has_value());
  REQUIRE(whole.bounds.size() == 2);
  o.before_run = failing([](const RunId& r) {
    return (r.kind == Kind::error_bars && r.fineness == 4) || (r.kind == Kind::bound && r.inner_ribs == RibTie::free);
  });
  const Plan p = make_plan(c, o);
  CHECK_FALSE(p.ceiling.has_value());
  CHECK(note_in<note::UnsolvedElsewhere>(p).stage == 0);
  CHECK(tells_of(p, Kind::bound));
  REQUIRE(p.bounds.size() == 1);
  CHECK(p.bounds[0].inner_ribs == RibTie::glued);
  for (const LimitReading& l : p.limits) CHECK(l.use + l.use_plus_minus > 1);
}
