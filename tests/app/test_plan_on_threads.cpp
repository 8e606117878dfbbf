#include "app/command/parallel.hpp"
#include "sequencer/planner/planner.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

// For the thread sanitizer (tests/cases/threads.cmake): ranking, finalists, study and chances of a panel as small as has
// them all. The search for an order is raced by the command's quick plan.
TEST_CASE("every part of a full plan can be worked on four threads", "[.race]") {
  Case c = sample::aileron(2, 0.6, 0.3);
  c.stages.resize(1);
  c.stages[0].doses = {1};
  c.target_nodes = 150;
  c.wanted.scenarios = 8;
  PlanOptions options;
  options.only_rules = true;
  options.parallel = [](int n, const std::function<void(int)>& work) { parallel_for(n, work, 4); };
  const Plan p = make_plan(c, options);
  CHECK(p.study.size() == 4);
  CHECK(p.chances.scenarios == 8);
}
