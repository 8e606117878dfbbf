#include "sequencer/choice/mid_work.hpp"
#include "sequencer/planner/planner.hpp"
#include "sequencer/replay/replay.hpp"
#include "solver/statement/errors.hpp"
#include "tests/sequencer/going_on.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace evenpull;

namespace {

Case small() {
  Case c = sample::aileron(3, 0.9, 0.3);
  c.stages.resize(2);
  c.stages[0].doses = {1, 1};
  c.stages[1].doses = {1};
  return c;
}

// All of the top of the first pass, worked from the root.
std::vector<Step> top_done(const Panel& p) {
  std::vector<Step> done;
  for (int z = 0; z < static_cast<int>(p.zones.size()); ++z)
    if (p.zones[z].side == Side::top) {
      Step s;
      s.zone = z;
      done.push_back(s);
    }
  return done;
}

}  // namespace

TEST_CASE("going on keeps what is done, finishes the pass begun and then works every later pass whole") {
  const Case c = small();
  const Panel p = build_panel(c, {120});
  const std::vector<Step> done = top_done(p);
  const Begun b = where_it_stands(p, done);
  CHECK(b.worked.size() + b.left.size() == p.zones.size());
  for (int z : b.left) CHECK(p.zones[z].side == Side::bottom);
  Order order = order_families(p)[1];
  for (bool searched : {false, true}) {
    if (searched) order.rest = {b.left.rbegin(), b.left.rend()};
    const std::vector<Step> all = go_on(c, p, done, order);
    REQUIRE(all.size() == 3 * p.zones.size());
    for (std::size_t i = 0; i < all.size(); ++i) CHECK(all[i].done == (i < done.size()));
    std::vector<int> first_pass;
    for (std::size_t i = 0; i < p.zones.size(); ++i) first_pass.push_back(all[i].zone);
    if (searched) CHECK(first_pass[done.size()] == b.left.back());
    std::sort(first_pass.begin(), first_pass.end());
    for (std::size_t i = 0; i < first_pass.size(); ++i) REQUIRE(first_pass[i] == static_cast<int>(i));
    CHECK(std::is_sorted(all.begin(), all.end(), [](const Step& x, const Step& y) {
      return std::make_pair(x.stage, x.pass) < std::make_pair(y.stage, y.pass);
    }));
  }
}

TEST_CASE("when the last pass of all is begun only its rest is left") {
  const Case c = small();
  const Panel p = build_panel(c, {120});
  std::vector<Step> done = steps_of(c, p, order_families(p)[1]);
  done.pop_back();
  Order order = order_families(p)[0];
  order.rest = where_it_stands(p, done).left;
  REQUIRE(order.rest.size() == 1);
  CHECK(go_on(c, p, done, order).size() == done.size() + 1);
}

TEST_CASE("the rest of a pass is searched from the state that the steps done have left") {
  const Case c = small();
  const Panel p = build_panel(c, {search_nodes});
  const std::vector<Step> done = top_done(p);
  const RestFound found = search_rest(c, done, 1, one_by_one);
  CHECK(found.stands);
  CHECK(found.use_so_far > 0);
  std::vector<int> rest = found.rest;
  std::sort(rest.begin(), rest.end());
  CHECK(rest == where_it_stands(p, done).left);
}

TEST_CASE("a plan from half-done work judges only what is still to come") {
  // The first pass worked one side first: the sides differ much in pull then, and little in the second pass. A limit between
  // the two is broken by what is done and held by what is to come.
  Case c = small();
  const Model m(c, {coarse_nodes});
  const Panel& p = m.panel;
  const Order one_side_first = order_families(p)[0];
  std::vector<Step> done = steps_of(c, p, one_side_first);
  done.resize(p.zones.size());
  const std::vector<Tally> moments = replay(m, go_on(c, p, done, one_side_first), {}).moments;
  double past = 0, to_come = 0;
  for (std::size_t i = 0; i < 2 * p.zones.size(); ++i)
    (i < done.size() ? past : to_come) = std::max(i < done.size() ? past : to_come, moments[i].difference);
  REQUIRE(past > 1.5 * to_come);
  c.limits.pull_difference = std::sqrt(past * to_come);
  const auto use = [](const Plan& plan) {
    for (const LimitReading& l : plan.limits)
      if (l.limit == Limit::pull_difference && l.stage == 0) return l.use;
    return -1.0;
  };
  const Plan plan = make_plan_from(c, as_order(c, p, done), quick_options(true));
  REQUIRE(use(plan) > 0);
  CHECK(use(plan) < 1);
  for (std::size_t i = 0; i < plan.steps.size(); ++i) CHECK(plan.steps[i].done == (i < done.size()));
  // The same order with nothing done is judged as a whole.
  CHECK(use(replay_order(c, as_order(c, p, plan.steps), quick_options())) > 1);
}

TEST_CASE("a plan from half-done work made twice is the same") {
  const Case c = small();
  const Panel p = build_panel(c, {coarse_nodes});
  const Plan plan = make_plan_from(c, as_order(c, p, top_done(p)), quick_options());
  const Plan again = make_plan_from(c, as_order(c, p, top_done(p)), quick_options());
  CHECK(plan.order == again.order);
  REQUIRE(plan.limits.size() == again.limits.size());
  for (std::size_t i = 0; i < plan.limits.size(); ++i) CHECK(again.limits[i].use == plan.limits[i].use);
}

TEST_CASE("steps done that name a bay the panel lacks are refused") {
  const Case c = small();
  CHECK_THROWS_AS(make_plan_from(c, {{c.stages[0].temperature, 1, Side::top, 9, 1, 1.0}}, {}), CaseError);
}
