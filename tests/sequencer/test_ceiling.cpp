#include "sequencer/plan/plan.hpp"
#include "sequencer/replay/ceiling.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

LimitReading reading(Limit limit, int stage, double use, double bar = 0) {
  LimitReading l;
  l.limit = limit;
  l.when = Moment::on_the_way;
  l.stage = stage;
  l.value = use;
  l.allowed = 1;
  l.use = use;
  l.use_plus_minus = bar;
  return l;
}

StageVerdict stage(int index, double stress, double unevenness, double bar = 0) {
  StageVerdict v;
  v.stage = index;
  v.limits = {reading(Limit::stress, index, stress, bar), reading(Limit::unevenness, index, unevenness)};
  return v;
}

}  // namespace

TEST_CASE("the ceiling is the hottest stage whose whole history holds") {
  CHECK(stage_ceiling({stage(0, 0.2, 0.5), stage(1, 0.5, 0.5), stage(2, 0.9, 0.5)}, true) == 2);
  CHECK(stage_ceiling({stage(0, 0.2, 0.5), stage(1, 0.5, 0.5), stage(2, 1.1, 0.5)}, true) == 1);
  CHECK_FALSE(stage_ceiling({stage(0, 1.2, 0.5), stage(1, 0.5, 0.5)}, true).has_value());
}

TEST_CASE("a limit broken early is not forgiven by a later stage") {
  CHECK_FALSE(stage_ceiling({stage(0, 1.01, 0.1), stage(1, 0.5, 0.1), stage(2, 0.5, 0.1)}, true).has_value());
}

TEST_CASE("unevenness is finish: it bars no stage, neither on the way nor where the work stops") {
  CHECK(stage_ceiling({stage(0, 0.2, 1.5), stage(1, 0.4, 0.8)}, true) == 1);
  CHECK(stage_ceiling({stage(0, 0.2, 0.5), stage(1, 0.4, 1.8)}, true) == 1);
  CHECK(stage_ceiling({stage(0, 0.2, 1.5), stage(1, 1.4, 0.8)}, true) == 0);
  CHECK(kind_of(Limit::unevenness) == LimitKind::finish);
  CHECK(kind_of(Limit::slip) == LimitKind::distortion);
  CHECK(kind_of(Limit::buckling) == LimitKind::damage);
}

TEST_CASE("the pessimistic end of the error bar decides") {
  const std::vector<StageVerdict> stages = {stage(0, 0.5, 0.1), stage(1, 0.95, 0.1, 0.1)};
  CHECK(stage_ceiling(stages, false) == 1);
  CHECK(stage_ceiling(stages, true) == 0);
}

TEST_CASE("a frame that gives way ends the history") {
  std::vector<StageVerdict> stages = {stage(0, 0.5, 0.1), stage(1, 0.6, 0.1)};
  stages[1].buckled = true;
  CHECK(stage_ceiling(stages, true) == 0);
}

TEST_CASE("a stage whose cloth is loose in the end is never the last one, and may be passed on the way") {
  const auto loose = [](StageVerdict v) {
    v.summary.loose_zones = {2};
    return v;
  };
  CHECK_FALSE(stage_ceiling({loose(stage(0, 0.01, 0.1))}, true).has_value());
  CHECK(stage_ceiling({loose(stage(0, 0.2, 0.1)), stage(1, 0.5, 0.1)}, true) == 1);
  CHECK(stage_ceiling({stage(0, 0.2, 0.1), loose(stage(1, 0.5, 0.1))}, true) == 0);
  CHECK(stage_ceiling({loose(stage(0, 0.2, 0.1)), loose(stage(1, 0.5, 0.1)), stage(2, 0.9, 0.1)}, true) == 2);
  CHECK_FALSE(stage_ceiling({loose(stage(0, 0.2, 0.1)), stage(1, 1.2, 0.1)}, true).has_value());
}

TEST_CASE("the worst readings are the worst of each limit up to the ceiling, unevenness that of the last stage alone") {
  Plan p;
  p.ceiling = 1;
  const auto reading = [](Limit limit, int stage, double use, double bar) {
    LimitReading r;
    r.limit = limit, r.stage = stage, r.use = use, r.use_plus_minus = bar;
    return r;
  };
  p.limits = {reading(Limit::stress, 0, 0.80, 0.01), reading(Limit::stress, 1, 0.79, 0.05),
              reading(Limit::stress, 2, 1.5, 0),     reading(Limit::unevenness, 0, 1.2, 0),
              reading(Limit::unevenness, 1, 0.3, 0), reading(Limit::slip, 0, 0.5, 0)};
  const auto worst = worst_readings(p);
  REQUIRE(worst.size() == 3);
  CHECK(worst[0].limit == Limit::stress);
  CHECK(worst[0].stage == 1);
  CHECK(worst[1].limit == Limit::slip);
  CHECK(worst[2].limit == Limit::unevenness);
  CHECK(worst[2].use == 0.3);
}
