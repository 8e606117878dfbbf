// By what the top of the swing counts: full passes that a zone was really worked (docs/model.md, section 4).
#include "sequencer/orders/families.hpp"
#include "sequencer/replay/full_passes.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/search/coarse_model.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

Step step(int stage, int zone, double dose) {
  Step s;
  s.stage = stage, s.zone = zone, s.dose = dose;
  return s;
}

// One stage of these doses under an iron that swings.
Case swinging(std::vector<double> doses) {
  Case c = sample::aileron(3, 0.9, 0.3);
  c.stages.resize(1);
  c.stages[0].doses = std::move(doses);
  c.iron.swing = 14;
  return c;
}

double mean_shrink(const Panel& p, const Covering& s, int zone) {
  double sum = 0;
  for (int q : p.zones[zone].quads)
    for (int t = 4 * q; t < 4 * q + 4; ++t) sum += s.shrink[t][0] + s.shrink[t][1];
  return sum / static_cast<double>(p.zones[zone].quads.size());
}

Covering end_of(const Model& m, const std::vector<Step>& steps) {
  ReplayOptions options;
  options.states = true;
  options.released = false;
  return replay(m, steps, options).stage_end.front();
}

}  // namespace

TEST_CASE("full passes are counted zone by zone and stage by stage, light ones not at all") {
  FullPasses met(2);
  CHECK(met.with(step(0, 0, 0.25)) == 0);
  CHECK(met.with(step(0, 0, 1)) == 1);
  CHECK(met.with(step(0, 1, 1)) == 1);
  CHECK(met.with(step(0, 0, 1)) == 2);
  CHECK(met.with(step(0, 0, 0.25)) == 0);
  CHECK(met.in_stage(0) == std::vector<int>{2, 1});
  CHECK(met.in_stage(1) == std::vector<int>{0, 0});
  CHECK(met.with(step(1, 0, 1)) == 1);
  CHECK(met.in_stage(1) == std::vector<int>{1, 0});
}

TEST_CASE("passes over the whole panel count as their doses say, and the most that any zone got is told") {
  CHECK(full_passes_of({0.25, 1, 1}, 1) == 0);
  CHECK(full_passes_of({0.25, 1, 1}, 3) == 2);
  CHECK(full_passes_of({1, 0.25}, 2) == 0);  // a touch does not hold the cloth at the setting
  CHECK(full_passes_of({1}, 4) == 1);        // no pass beyond those listed
  CHECK(most_full_passes({step(0, 0, 1), step(0, 1, 1), step(0, 1, 1), step(1, 0, 1)}, 0) == 2);
  CHECK(most_full_passes({step(0, 0, 0.25)}, 0) == 0);
}

TEST_CASE("an order with full passes more on one zone leaves that zone as the hotter swing would") {
  const Case c = swinging({1});
  Case steady = c;
  steady.iron.swing = 0;
  const Model m(c, {120}), no_swing(steady, {120});
  const std::vector<Step> once = steps_of(c, m.panel, order_families(m.panel)[2]);
  std::vector<Step> thrice = once;
  const int zone = once.back().zone;
  for (int pass : {2, 3}) {
    thrice.push_back(once.back());
    thrice.back().pass = pass;
  }
  const double swing_adds = mean_shrink(m.panel, end_of(m, thrice), zone) - mean_shrink(m.panel, end_of(m, once), zone);
  const double repeats_add =
      mean_shrink(m.panel, end_of(no_swing, thrice), zone) - mean_shrink(m.panel, end_of(no_swing, once), zone);
  // What the third full pass finds at no pull, m_3 = 6/pi^2 swings hotter, gives the size; pull takes some of it away.
  Ironing ironing(m);
  const double most = 8 * (ironing.heat(0, 3, 1, 3).open.lines[0].a - ironing.heat(0, 1, 1, 1).open.lines[0].a);
  REQUIRE(most > 0);
  CHECK(swing_adds - repeats_add > 0.1 * most);
  CHECK(swing_adds - repeats_add < most);
}

TEST_CASE("a search that goes on from full passes already worked finds the hotter cloth") {
  const Case c = swinging({1});
  const Model m(c, {120});
  Ironing ironing(m);
  const Covering start = ironing.begin();
  const Things zones = single_zones(m.panel);
  const CoarseModel fresh(m, 0, start, zones), later(m, 0, start, zones, std::vector<int>(zones.size(), 2));
  const PrefixPtr a = fresh.step(fresh.begin(), 0), b = later.step(later.begin(), 0);
  CHECK(mean_shrink(m.panel, CoarseModel::covering(*b), 0) > mean_shrink(m.panel, CoarseModel::covering(*a), 0));
  const Influence i = fresh.measure({0}, one_by_one), j = later.measure({0}, one_by_one);
  CHECK(j.free_shrink[0] > i.free_shrink[0]);
}

TEST_CASE("a search through prefixes counts full passes as the replay of the same steps does") {
  const Case c = swinging({0.25, 1, 1});
  const Model m(c, {120});
  Ironing ironing(m);
  const CoarseModel model(m, 0, ironing.begin(), whole_bays(m.panel));
  const std::vector<int> order = {1, 4, 0, 3, 5, 2};
  PrefixPtr p = model.begin();
  for (int pass = 0; pass < 3; ++pass)
    for (int i : order) p = model.step(p, i);
  Order o;
  o.zones = zones_in(model.things(), order);
  const ReplayResult r = replay(m, steps_of(c, m.panel, o), {});
  Tally end;
  take_gauges(model.layout(), CoarseModel::gauges(*p), end);
  CHECK(end.use == Approx(r.moments.back().use).epsilon(1e-3));  // both to the tolerance of a step
}
