#include "sequencer/plan/plan.hpp"
#include "sequencer/planner/advice.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

LimitReading reading(Limit limit, int stage, double use, double bar = 0) {
  LimitReading l;
  l.limit = limit;
  l.where = "end rib 1";
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

TEST_CASE("unevenness counts where the work stops, not on the way") {
  CHECK(stage_ceiling({stage(0, 0.2, 1.5), stage(1, 0.4, 0.8)}, true) == 1);
  CHECK_FALSE(stage_ceiling({stage(0, 0.2, 1.5), stage(1, 1.4, 0.8)}, true).has_value());
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

TEST_CASE("no safe stage comes with the advice to stop and ask") {
  const Case c = sample::aileron();
  const Advice a = advise(c, build_panel(c, {}), {stage(0, 1.4, 0.1), stage(1, 2, 0.1), stage(2, 3, 0.1)}, {}, {}, false);
  REQUIRE_FALSE(a.advice.empty());
  CHECK(a.because.find("No stage holds") != std::string::npos);
  bool ask = false;
  for (const std::string& s : a.advice) ask = ask || s.find("Stop and ask") != std::string::npos;
  CHECK(ask);
}

TEST_CASE("a ceiling below what the approved data ask for says stop and ask") {
  Case c = sample::aileron();
  c.approved_last_stage = c.stages[2].temperature;
  const Advice a = advise(c, build_panel(c, {}), {stage(0, 0.4, 0.1), stage(1, 0.8, 0.1), stage(2, 1.3, 0.1)}, 1, {}, false);
  REQUIRE_FALSE(a.advice.empty());
  CHECK(a.advice.front().find("approved data ask for 350") != std::string::npos);
}

TEST_CASE("a last stage that was never computed is not called too hot") {
  Case c = sample::aileron();
  c.approved_last_stage = c.stages[1].temperature;  // 300 F
  const Panel p = build_panel(c, {});
  const auto said = [&](const Case& of, const std::vector<StageVerdict>& stages) {
    return advise(of, p, stages, 0, {}, false).advice.front();
  };
  Case cool = c;
  cool.stages.resize(1);  // ends at 250 F, which holds
  const std::string not_computed = said(cool, {stage(0, 0.5, 0.1)});
  CHECK(not_computed.find("not computed") != std::string::npos);
  CHECK(not_computed.find("Add that stage") != std::string::npos);
  CHECK(not_computed.find("stop and ask") != std::string::npos);
  CHECK(not_computed.find("hotter than this panel bears") == std::string::npos);
  Case leaps = c;
  leaps.stages.erase(leaps.stages.begin() + 1);  // 350 F fails; of 300 F nothing is known
  CHECK(said(leaps, {stage(0, 0.5, 0.1), stage(1, 1.4, 0.1)}).find("not computed") != std::string::npos);
  const std::string computed = said(c, {stage(0, 0.5, 0.1), stage(1, 1.4, 0.1)});
  CHECK(computed.find("hotter than this panel bears") != std::string::npos);
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

TEST_CASE("loose cloth is said first, with its zones, and is no success") {
  const Case c = sample::aileron();
  const Panel p = build_panel(c, {});
  const auto loose = [&](StageVerdict v, std::vector<int> zones) {
    v.summary.stage = v.stage;
    v.summary.loose_zones = std::move(zones);
    return v;
  };
  std::vector<int> all;
  for (std::size_t z = 0; z < p.zones.size(); ++z) all.push_back(static_cast<int>(z));
  const std::vector<StageVerdict> never = {loose(stage(0, 0.01, 0.1), all), loose(stage(1, 0.02, 0.1), all)};
  const Advice a = advise(c, p, never, {}, {}, false);
  CHECK(a.loose_headline == "The cloth does not come tight");
  CHECK(a.loose.find("all of the cloth") != std::string::npos);
  CHECK(a.loose.find("300") != std::string::npos);  // the hottest
  CHECK(a.because.find("every limit holds") == std::string::npos);
  CHECK(a.because.find("does not come tight") != std::string::npos);

  // The frame is the reason where its limits break first.
  CHECK(advise(c, p, {loose(stage(0, 1.4, 0.1), all)}, {}, {}, false).loose_headline.empty());

  // What was done before is not judged, so nobody says that its limits held.
  StageVerdict before = loose(stage(0, 0, 0), {0});
  before.limits.clear();
  const Advice going_on = advise(c, p, {before, stage(1, 1.2, 0.1)}, {}, {}, false);
  CHECK(going_on.because.find("is not judged") != std::string::npos);
  CHECK(going_on.because.find("limits hold") == std::string::npos);
  CHECK(going_on.loose_headline.empty());

  // Loose at 250 F, over the limit at 300 F: both are told.
  const Advice both = advise(c, p, {loose(stage(0, 0.2, 0.1), {0, 3}), stage(1, 1.2, 0.1)}, {}, {}, false);
  CHECK_FALSE(both.loose_headline.empty());
  CHECK(both.loose.find(p.zones[0].label + " and " + p.zones[3].label) != std::string::npos);
  CHECK(both.because.find("what stops it is stress") != std::string::npos);

  // On the way to a tight end: no headline, but a warning not to stop there.
  const Advice way = advise(c, p, {loose(stage(0, 0.2, 0.1), {0}), stage(1, 0.5, 0.1)}, 1, {}, false);
  CHECK(way.loose_headline.empty());
  CHECK(way.loose.find("Do not stop there") != std::string::npos);
  CHECK(advise(c, p, {stage(0, 0.2, 0.1), stage(1, 0.5, 0.1)}, 1, {}, false).loose.empty());
}

TEST_CASE("the worst readings are the worst of each limit up to the ceiling, unevenness that of the last stage alone") {
  Plan p;
  p.ceiling = 1;
  const auto reading = [](Limit limit, int stage, double use, double bar) {
    LimitReading r;
    r.limit = limit, r.stage = stage, r.use = use, r.use_plus_minus = bar;
    return r;
  };
  p.limits = {reading(Limit::stress, 0, 0.80, 0.01), reading(Limit::stress, 1, 0.79, 0.05), reading(Limit::stress, 2, 1.5, 0),
              reading(Limit::unevenness, 0, 1.2, 0), reading(Limit::unevenness, 1, 0.3, 0), reading(Limit::slip, 0, 0.5, 0)};
  const auto worst = worst_readings(p);
  REQUIRE(worst.size() == 3);
  CHECK(worst[0].limit == Limit::stress);
  CHECK(worst[0].stage == 1);
  CHECK(worst[1].limit == Limit::slip);
  CHECK(worst[2].limit == Limit::unevenness);
  CHECK(worst[2].use == 0.3);
}
