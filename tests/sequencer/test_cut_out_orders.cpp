// Orders on a panel with a pocket that takes whole zones away in one half of the span (invented).
#include "sequencer/orders/families.hpp"
#include "sequencer/orders/ways.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>

using namespace evenpull;

namespace {

Case with_deep_pocket() {
  Case c = sample::light_rudder(5);
  c.iron = {0.1, 0.06, 0.0, 6.0, 8.0};  // several strips a bay
  Pocket p;
  p.from = c.ribs[1].station;
  p.to = c.ribs[2].station;
  p.depth = 0.14;
  p.make = c.span_members[1].make;
  c.pockets = {p};
  return c;
}

Panel panel_of(const Case& c, int zone_parts = 1) {
  MeshOptions o;
  o.target_nodes = 1500;
  o.zone_parts = zone_parts;
  return build_panel(c, o);
}

void check_every_zone_once(const Panel& p, std::vector<int> zones) {
  std::vector<int> all(p.zones.size());
  std::iota(all.begin(), all.end(), 0);
  std::sort(zones.begin(), zones.end());
  CHECK(zones == all);
}

}  // namespace

TEST_CASE("with zones cut out every order still works every zone once, in a mirror too") {
  const Panel p = panel_of(with_deep_pocket());
  REQUIRE(p.zones.size() < static_cast<std::size_t>(2 * p.bays * p.strips));
  for (const Order& o : order_families(p, 2)) {
    check_every_zone_once(p, o.zones);
    for (const std::vector<int>& stage : o.by_stage) check_every_zone_once(p, stage);
    for (bool sides : {false, true})
      for (bool ends : {false, true}) {
        const Order m = mirrored(p, o, sides, ends);
        check_every_zone_once(p, m.zones);
        for (const std::vector<int>& stage : m.by_stage) check_every_zone_once(p, stage);
      }
  }
  std::vector<int> in_bays;
  for (const std::vector<int>& bay : whole_bays(p)) {
    CHECK_FALSE(bay.empty());
    in_bays.insert(in_bays.end(), bay.begin(), bay.end());
  }
  check_every_zone_once(p, in_bays);
}

TEST_CASE("with zones cut out the steps on split zones work every one of them once a pass") {
  const Case c = with_deep_pocket();
  const Panel p = panel_of(c), split = panel_of(c, 2);
  REQUIRE(split.strips == 2 * p.strips);
  const std::vector<Step> steps = split_steps(p, split, steps_of(c, p, order_families(p).front()));
  std::vector<int> first_pass;
  for (const Step& s : steps)
    if (s.stage == 0 && s.pass == 1) first_pass.push_back(s.zone);
  check_every_zone_once(split, first_pass);
}
