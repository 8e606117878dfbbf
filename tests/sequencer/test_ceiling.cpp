#include "sequencer/advice.hpp"
#include "sequencer/ceiling.hpp"
#include "sequencer/plan.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

LimitReading reading(const std::string& name, int stage, double use, double bar = 0) {
  LimitReading l;
  l.name = name;
  l.where = "end rib 1";
  l.when = "on the way";
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
  v.limits = {reading("stress", index, stress, bar), reading("unevenness", index, unevenness)};
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
  const Advice a = advise(c, {stage(0, 1.4, 0.1), stage(1, 2, 0.1), stage(2, 3, 0.1)}, {}, {}, false);
  REQUIRE_FALSE(a.advice.empty());
  CHECK(a.because.find("No stage holds") != std::string::npos);
  bool ask = false;
  for (const std::string& s : a.advice) ask = ask || s.find("Stop and ask") != std::string::npos;
  CHECK(ask);
}

TEST_CASE("a ceiling below what the approved data ask for says stop and ask") {
  Case c = sample::aileron();
  c.approved_last_stage = c.stages[2].temperature;
  const Advice a = advise(c, {stage(0, 0.4, 0.1), stage(1, 0.8, 0.1), stage(2, 1.3, 0.1)}, 1, {}, false);
  REQUIRE_FALSE(a.advice.empty());
  CHECK(a.advice.front().find("approved data ask for 350") != std::string::npos);
}

TEST_CASE("the worst readings are the worst of each limit up to the ceiling, unevenness that of the last stage alone") {
  Plan p;
  p.ceiling = 1;
  const auto reading = [](const char* name, int stage, double use, double bar) {
    LimitReading r;
    r.name = name, r.stage = stage, r.use = use, r.use_plus_minus = bar;
    return r;
  };
  p.limits = {reading("stress", 0, 0.80, 0.01), reading("stress", 1, 0.79, 0.05), reading("stress", 2, 1.5, 0),
              reading("unevenness", 0, 1.2, 0), reading("unevenness", 1, 0.3, 0), reading("slip", 0, 0.5, 0)};
  const auto worst = worst_readings(p);
  REQUIRE(worst.size() == 3);
  CHECK(worst[0].name == "stress");
  CHECK(worst[0].stage == 1);
  CHECK(worst[1].name == "slip");
  CHECK(worst[2].name == "unevenness");
  CHECK(worst[2].use == 0.3);
}
