// Crippling as a limit of damage with a strength of its own, waves as a finish that bars nothing.
#include "sequencer/replay/gauges.hpp"
#include "sequencer/replay/judge.hpp"
#include "sequencer/sure/damage_study.hpp"
#include "sequencer/sure/outturn.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace evenpull;

namespace {

const LimitReading* find(const std::vector<LimitReading>& limits, Limit limit) {
  const auto l = std::find_if(limits.begin(), limits.end(), [&](const LimitReading& r) { return r.limit == limit; });
  return l == limits.end() ? nullptr : &*l;
}

Readings stressed() {
  Readings r;
  r.crippling.value = 0.5, r.crippling.member = 0;
  r.waves.value = 3, r.waves.member = 0;
  r.metal_stress_use.value = 0.4, r.metal_stress_use.member = 0;
  r.metal_stress_use.allowed = 1;
  r.edge_bow.allowed = r.end_rib_bow.allowed = 0.005;
  r.stress_use = r.metal_stress_use;
  return r;
}

}  // namespace

TEST_CASE("crippling governs where it alone is tight, and counts in the score of an order") {
  Case c = sample::aileron(2, 0.6);
  c.limits.crippling_share = 2.0 / 3;
  const Model m(c, {200});
  StageJudge judge(m, 0);
  judge.take(stressed(), Moment::on_the_way);
  CHECK(governing(judge.limits()).limit == Limit::crippling);
  CHECK(governing(judge.limits()).use == Approx(0.75));
  CHECK(tally_of(c.limits, stressed()).use == Approx(0.75));
  c.limits.crippling_share = 0;
  const Model without(c, {200});
  StageJudge other(without, 0);
  other.take(stressed(), Moment::on_the_way);
  CHECK(find(other.limits(), Limit::crippling) == nullptr);
  CHECK(tally_of(c.limits, stressed()).use == Approx(0.4));
}

TEST_CASE("waves are told and bar nothing") {
  Case c = sample::aileron(2, 0.6);
  c.limits.waves = 1;
  const Model m(c, {200});
  StageJudge judge(m, 0);
  judge.take(stressed(), Moment::on_the_way);
  REQUIRE(find(judge.limits(), Limit::waves));
  CHECK(find(judge.limits(), Limit::waves)->use == Approx(3));
  CHECK(kind_of(Limit::waves) == LimitKind::finish);
  CHECK(history_use(judge.limits(), true) < 1);
  Outturn o;
  o.uses = {{{Limit::waves, 3.0}, {Limit::stress, 0.4}}};
  o.fell = {false};
  o.loose = {{}};
  ModelReading reading;
  reading.corrections.resize(1);
  reading.not_counted.resize(1);
  CHECK(holds(o, reading, 0));
}

TEST_CASE("what cripples has a scatter of its own and is damaged at its crippling stress") {
  Case c = sample::aileron(2, 0.6);
  c.limits.crippling_share = 2.0 / 3;
  CHECK(share_of_damage(c, Limit::crippling) == Approx(2.0 / 3));
  CHECK(strength_of(c, Panel{}, Limit::crippling).material == StrengthOf::thin_sheet);
  CHECK(strength_of(c, Panel{}, Limit::crippling).scatter == c.spreads.crippling);
}
