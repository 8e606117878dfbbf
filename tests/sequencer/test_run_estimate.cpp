#include "sequencer/orders/families.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/sure/run_estimate.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

TEST_CASE("the estimate counts the nodes, zones and steps that a replay of the plan's mesh really has") {
  Case c = sample::aileron(3, 0.9, 0.3);
  c.stages.resize(2);
  c.stages[0].doses = {0.25, 1};
  c.stages[1].doses = {1};
  c.target_nodes = 150;
  const Model m(c, plan_mesh(c, Accuracy::normal));
  const ReplayResult r = replay(m, steps_of(c, m.panel, order_families(m.panel)[0]), {});
  const RunEstimate e = estimate_run(c, Accuracy::normal);
  CHECK(e.nodes == r.solve.nodes);
  CHECK(e.zones == static_cast<int>(m.panel.zones.size()));
  CHECK(e.steps == r.solve.steps);
}

TEST_CASE("the estimate grows with accuracy, passes, nodes and scenarios") {
  const Case c = sample::aileron();
  const double normal = estimate_run(c, Accuracy::normal).processor_seconds;
  CHECK(estimate_run(c, Accuracy::quick).processor_seconds < normal);
  CHECK(estimate_run(c, Accuracy::fine).processor_seconds > normal);
  Case more = c;
  more.stages[0].doses.push_back(1);
  CHECK(estimate_run(more, Accuracy::normal).processor_seconds > normal);
  more = c, more.target_nodes *= 2;
  CHECK(estimate_run(more, Accuracy::normal).processor_seconds > normal);
  more = c, more.wanted.scenarios = 0;
  CHECK(estimate_run(more, Accuracy::normal).processor_seconds < normal);
  // Chances are no part of a quick plan.
  CHECK(estimate_run(more, Accuracy::quick).processor_seconds == estimate_run(c, Accuracy::quick).processor_seconds);
}

TEST_CASE("two processors take between half the time of one and all of it") {
  const RunEstimate e = estimate_run(sample::aileron(), Accuracy::normal);
  CHECK(e.seconds_on(1) == e.processor_seconds);
  CHECK(e.seconds_on(2) > e.processor_seconds / 2);
  CHECK(e.seconds_on(2) < e.processor_seconds);
  CHECK(e.seconds_on(4) < e.seconds_on(2));
}
