#include "sequencer/orders/families.hpp"
#include "sequencer/orders/zone_graph.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

TEST_CASE("an arc between sides is a turn-over and one along a side is not") {
  const Panel p = build_panel(sample::aileron(3), {200});
  const ZoneGraph g = zone_graph(p, 60);
  REQUIRE(boost::num_vertices(g) == p.zones.size());
  for (auto [arc, end] = boost::edges(g); arc != end; ++arc) {
    const Zone &a = p.zones[boost::source(*arc, g)], &b = p.zones[boost::target(*arc, g)];
    CHECK(g[*arc].turn_over == (a.side != b.side));
    CHECK(g[*arc].travel >= 0);
  }
}

TEST_CASE("the route of one side after the other has one turn-over") {
  const Panel p = build_panel(sample::aileron(4), {200});
  const Route r = route_of(zone_graph(p, 60), order_families(p).front().zones);
  CHECK(r.turn_overs == 1);
  // Steady work walks the span twice and comes back once.
  CHECK(r.travel > 2 * 1.8 * 3.0 / 4);
}

TEST_CASE("a zone cannot follow itself") {
  const Panel p = build_panel(sample::aileron(2), {200});
  CHECK_THROWS_AS(route_of(zone_graph(p, 60), {0, 0}), std::invalid_argument);
}
