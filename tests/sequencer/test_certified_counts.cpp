// Ceilings on iterations: time hangs on the machine, counts do not. Above a ceiling something that was made cheaper has been
// lost; far below it the ceiling is to be lowered (bench/RECORD.md, A whole plan by its parts).
#include "sequencer/orders/families.hpp"
#include "sequencer/replay/replay.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using namespace evenpull;

TEST_CASE("a certified step takes no more iterations than it did", "[counts]") {
  const Case c = sample::aileron(3, 0.9, 0.3);
  const Model m(c, {350});
  std::vector<Order> orders = order_families(m.panel);
  std::erase_if(orders, [](const Order& o) { return !o.id.is(Family::halving); });
  REQUIRE(orders.size() == 1);
  ReplayOptions certified;
  certified.certified = true;
  const ReplayResult r = replay(m, steps_of(c, m.panel, orders.front()), certified);
  std::vector<double> iterations(c.stages.size()), steps(c.stages.size());
  for (const Certificate& k : r.certificates)
    if (k.when == Moment::on_the_way) iterations[k.stage] += k.solve.iterations, ++steps[k.stage];
  const std::vector<double> ceiling = {13, 8, 8.5};
  REQUIRE(iterations.size() == ceiling.size());
  for (std::size_t s = 0; s < ceiling.size(); ++s) {
    INFO("stage " << s + 1 << ": " << iterations[s] / steps[s] << " iterations a step");
    CHECK(iterations[s] <= ceiling[s] * steps[s]);
  }
}
