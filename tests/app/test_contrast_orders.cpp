#include "app/command/contrast_orders.hpp"
#include "app/input/case_reader.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <tuple>

using namespace evenpull;

TEST_CASE("both ways of a lesson work every zone once in every pass, with the case's doses", "[contrast]") {
  const Case c = read_case(std::string(EVENPULL_CASES_DIR) + "/metal_aileron.toml");
  const Panel p = build_panel(c, {c.target_nodes});
  for (const auto& order : {one_side_first(c, p, 1), root_to_tip(c, p, 1)}) {
    std::map<std::tuple<double, int, int, int, int>, int> times;
    for (const auto& s : order) {
      ++times[{s.temperature, s.pass, static_cast<int>(s.side), s.bay, s.strip}];
      const Stage& stage = s.temperature == c.stages[0].temperature ? c.stages[0] : c.stages[1];
      CHECK(s.dose == stage.doses.at(static_cast<size_t>(s.pass - 1)));
    }
    CHECK(times.size() == (c.stages[0].doses.size() + c.stages[1].doses.size()) * p.zones.size());
    for (const auto& [zone, n] : times) CHECK(n == 1);
  }
}

TEST_CASE("the wrong way turns over once a pass and once between passes, the plain way once a bay", "[contrast]") {
  const Case c = read_case(std::string(EVENPULL_CASES_DIR) + "/metal_aileron.toml");
  const Panel p = build_panel(c, {c.target_nodes});
  const auto turns = [](const std::vector<OrderStep>& order) {
    int n = 0;
    for (size_t i = 1; i < order.size(); ++i) n += order[i].side != order[i - 1].side;
    return n;
  };
  const int passes = static_cast<int>(c.stages[0].doses.size());
  CHECK(turns(one_side_first(c, p, 0)) == 2 * passes - 1);
  // An even number of bays ends a pass on the side that it began with.
  REQUIRE(p.bays % 2 == 0);
  CHECK(turns(root_to_tip(c, p, 0)) == p.bays * passes);
}
