#include "tests/support/sample_plan.hpp"
#include "viz/words/runs.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace evenpull;
using namespace evenpull::viz;

TEST_CASE("passes that share an order are worked from one list") {
  const Plan plan = sample_plan();
  const auto orders = orders_of_stage(plan, 0);
  REQUIRE(orders.size() == 1);
  CHECK(orders[0].passes == std::vector<int>{1, 2, 3});
  CHECK(orders[0].doses == std::vector<double>{0.25, 0.25, 1});
  CHECK(orders[0].runs.size() == 12);
  CHECK(one_order_throughout(plan, 2));
}

TEST_CASE("every zone stands once in the list and has its place") {
  const Plan plan = sample_plan();
  const auto order = orders_of_stage(plan, 1).front();
  std::multiset<int> zones;
  for (const auto& run : order.runs) zones.insert(run.zones.begin(), run.zones.end());
  CHECK(zones.size() == plan.panel.zones.size());
  CHECK(std::set<int>(zones.begin(), zones.end()).size() == plan.panel.zones.size());
  for (const auto& place : places_by_zone(plan.panel, order)) CHECK_FALSE(place.empty());
}

TEST_CASE("a run is on one side") {
  const Plan plan = sample_plan();
  const auto order = orders_of_stage(plan, 0).front();
  for (const auto& run : order.runs)
    CHECK((run_side(plan.panel, run) == "TOP" || run_side(plan.panel, run) == "BOTTOM"));
}

TEST_CASE("a pass with mixed doses says the dose of each zone") {
  Plan plan = sample_plan();
  plan.steps[1].dose = 1;
  const auto orders = orders_of_stage(plan, 0);
  REQUIRE(orders.size() == 2);
  CHECK(orders[0].mixed);
  CHECK(run_zones(plan.panel, orders[0].runs[0], true) == "T10 light T11 full T12 light");
  CHECK(orders[1].passes == std::vector<int>{2, 3});
}

TEST_CASE("a zone worked twice in a pass has two places") {
  Plan plan = sample_plan();
  plan.steps[35].zone = plan.steps[0].zone;
  const auto orders = orders_of_stage(plan, 0);
  CHECK(places_by_zone(plan.panel, orders[0])[plan.steps[0].zone] == "1, 36");
}

TEST_CASE("passes that are done are left out, and in the pass begun the zones that are done say so") {
  Plan plan = sample_plan();
  const std::size_t zones = plan.panel.zones.size();
  for (std::size_t i = 0; i < zones + 3; ++i) plan.steps[i].done = true;
  const auto orders = orders_of_stage(plan, 0);
  REQUIRE(orders.size() == 2);
  CHECK(orders[0].passes == std::vector<int>{2});
  CHECK(orders[1].passes == std::vector<int>{3});
  const auto places = places_by_zone(plan.panel, orders[0]);
  CHECK(std::count(places.begin(), places.end(), "done") == 3);
  CHECK(run_zones(plan.panel, orders[0].runs[0], false) == "done");
}

TEST_CASE("zones done at another dose do not make the rest of the pass a mixed one") {
  Plan plan = sample_plan();
  int first = 0;
  for (Step& s : plan.steps)
    if (s.stage == 0 && s.pass == 1 && first++ < 4) s.done = true, s.dose = 1;
  const auto orders = orders_of_stage(plan, 0);
  REQUIRE(orders.size() == 2);
  CHECK_FALSE(orders[0].mixed);
  CHECK(orders[0].doses == std::vector<double>{0.25});
}
