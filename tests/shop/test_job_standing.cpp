// Where a job stands beside its plan.
#include "shop/job_standing.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;

namespace {

double F(double fahrenheit) { return (fahrenheit + 459.67) / 1.8; }

// Two stages of one pass each over three bays, top then bottom; the second stage is safe. A window after the first. Invented.
PlanDigest two_stage_plan(bool second_safe = true, bool by_reading = false) {
  PlanDigest p;
  p.title = "invented";
  p.hottest_safe = F(second_safe ? 300 : 250);
  for (const double stage : {250.0, 300.0})
    for (const Side side : {Side::top, Side::bottom})
      for (int bay = 1; bay <= 3; ++bay) {
        PlanDigest::Step s;
        s.step = {F(stage), 1, side, bay, 1, 1};
        s.label = (side == Side::top ? "T" : "B") + std::to_string(bay);
        s.run = (stage > 260 ? 2 : 0) + (side == Side::top ? 1 : 2);
        s.to_be_ironed = stage < 260 || second_safe;
        s.only_by_reading = stage > 260 && by_reading;
        p.steps.push_back(s);
      }
  p.stages.resize(2);
  p.stages[0].temperature = F(250), p.stages[1].temperature = F(300);
  p.stages[0].next = F(300);
  p.stages[0].window = {{Side::top, 0, 0.5, 3e-3, 2.5e-3, 3.6e-3}, {Side::bottom, 2, 0.5, 3e-3, 2.5e-3, 3.6e-3}};
  p.stages[0].shapes = {{Limit::twist, 1e-3, 2e-3}};
  return p;
}

WorkSoFar worked(double stage, const std::vector<std::pair<Side, int>>& zones, WorkSoFar before = {}) {
  for (const auto& [side, bay] : zones) before.steps.push_back({F(stage), 1, side, bay, 1, 1});
  return before;
}

std::vector<std::pair<Side, int>> all_zones() {
  std::vector<std::pair<Side, int>> out;
  for (const Side side : {Side::top, Side::bottom})
    for (int bay = 1; bay <= 3; ++bay) out.push_back({side, bay});
  return out;
}

void read_sag(WorkSoFar& w, Side side, int bay, double sag, double weight = 0.5) {
  Measured m;
  m.side = side, m.bay = bay, m.weight = weight, m.sag = sag;
  w.readings.push_back({F(250), m, 1});
}

bool has(const JobStanding& s, OffPlan off) { return std::find(s.off.begin(), s.off.end(), off) != s.off.end(); }

}  // namespace

TEST_CASE("what comes next goes up to the turn-over", "[log]") {
  const JobStanding s = standing_of(two_stage_plan(), worked(250, {{Side::top, 1}}));
  CHECK(s.move == NextMove::work);
  CHECK(s.next == std::vector<int>{1, 2});
  CHECK(s.done == 1);
  CHECK(s.to_work == 12);
  CHECK(s.off.empty());
}

TEST_CASE("after a stage its window is read before anything hotter, and says go, again or stop", "[log]") {
  const PlanDigest plan = two_stage_plan();
  WorkSoFar w = worked(250, all_zones());
  const JobStanding unread = standing_of(plan, w);
  CHECK(unread.move == NextMove::read_first);
  CHECK(unread.not_read.size() == 2);
  read_sag(w, Side::top, 0, 3.0e-3);
  CHECK(standing_of(plan, w).move == NextMove::read_first);
  WorkSoFar good = w, slack = w, tight = w, nonsense = w;
  read_sag(good, Side::bottom, 2, 6.2e-3, 1.0);  // twice the weight, twice the sag
  const JobStanding go = standing_of(plan, good);
  CHECK(go.move == NextMove::work);
  CHECK(go.next == std::vector<int>{6, 7, 8});
  read_sag(slack, Side::bottom, 2, 4.0e-3);
  const JobStanding again = standing_of(plan, slack);
  CHECK(again.move == NextMove::work_again);
  REQUIRE(again.again.size() == 1);
  CHECK(again.again[0].bay == 2);
  read_sag(tight, Side::bottom, 2, 2.0e-3);
  CHECK(standing_of(plan, tight).move == NextMove::stop);
  read_sag(nonsense, Side::bottom, 2, 30e-3);
  const JobStanding odd = standing_of(plan, nonsense);
  CHECK(odd.move == NextMove::read_first);
  CHECK(odd.readings.back().says == ReadingSays::far_off);
  // Worked again and read once more: the last reading counts.
  read_sag(slack, Side::bottom, 2, 3.3e-3);
  CHECK(standing_of(plan, slack).move == NextMove::work);
}

TEST_CASE("a stage that only readings open is worked once every bay reads inside, and never else", "[log]") {
  PlanDigest plan = two_stage_plan(false, true);
  WorkSoFar w = worked(250, all_zones());
  CHECK(standing_of(plan, w).next.empty());
  plan.stages[0].needed = true;
  const JobStanding unread = standing_of(plan, w);
  CHECK(unread.move == NextMove::finished);  // unless it is read
  CHECK(unread.not_read.size() == 2);
  read_sag(w, Side::top, 0, 3.0e-3);
  read_sag(w, Side::bottom, 2, 3.0e-3);
  const JobStanding open = standing_of(plan, w);
  CHECK(open.move == NextMove::work);
  CHECK(open.next == std::vector<int>{6, 7, 8});
  CHECK(standing_of(two_stage_plan(false, false), w).move == NextMove::finished);
}

TEST_CASE("work hotter than the plan calls safe stops the job", "[log]") {
  const JobStanding s = standing_of(two_stage_plan(false), worked(300, {{Side::top, 1}}, worked(250, all_zones())));
  CHECK(s.move == NextMove::stop);
  CHECK(has(s, OffPlan::hotter_than_safe));
}

TEST_CASE("work off the plan is planned anew: a bay skipped, a zone before its turn, a sole that was another",
          "[log]") {
  const PlanDigest plan = two_stage_plan();
  auto zones = all_zones();
  zones.erase(zones.begin() + 1);
  const JobStanding skipped = standing_of(plan, worked(300, {{Side::top, 1}}, worked(250, zones)));
  CHECK(skipped.move == NextMove::plan_anew);
  CHECK(has(skipped, OffPlan::left_out));
  CHECK(skipped.left_out == std::vector<std::string>{"T2"});
  const JobStanding early = standing_of(plan, worked(250, {{Side::bottom, 1}}));
  CHECK(early.move == NextMove::plan_anew);
  CHECK(has(early, OffPlan::before_its_turn));
  WorkSoFar hot = worked(280, all_zones());
  hot.sole_differed = true;
  const JobStanding other = standing_of(plan, hot);
  CHECK(other.move == NextMove::plan_anew);
  CHECK(has(other, OffPlan::sole_differed));
}

TEST_CASE("a bay that pulls otherwise than expected is put to the plan once, where no window decides", "[log]") {
  PlanDigest plan = two_stage_plan();
  plan.stages[0].window.clear(), plan.stages[0].next.reset();
  plan.stages[0].bays = {{Side::top, 0, 0.5, 3e-3, 2.8e-3, 3.2e-3}};
  WorkSoFar w = worked(250, all_zones());
  read_sag(w, Side::top, 0, 2.6e-3);  // within what a reading is off by
  CHECK(standing_of(plan, w).move == NextMove::work);
  w.readings.back().reading.sag = 2.2e-3;
  const JobStanding tight = standing_of(plan, w);
  CHECK(tight.move == NextMove::plan_anew);
  CHECK(has(tight, OffPlan::reads_otherwise));
  plan.read = w.readings;  // the plan that was made with it
  const JobStanding told = standing_of(plan, w);
  CHECK(told.move == NextMove::work);
  CHECK(told.readings.back().says == ReadingSays::in_the_plan);
}

TEST_CASE("a twist past where to stop stops, and so does what the log itself says", "[log]") {
  const PlanDigest plan = two_stage_plan();
  WorkSoFar w = worked(250, all_zones());
  read_sag(w, Side::top, 0, 3.0e-3);
  read_sag(w, Side::bottom, 2, 3.0e-3);
  Measured twist;
  twist.shape = Limit::twist, twist.value = 1.5e-3;
  w.readings.push_back({F(250), twist, 3});
  CHECK(standing_of(plan, w).move == NextMove::work);
  w.readings.back().reading.value = 2.5e-3;
  CHECK(standing_of(plan, w).move == NextMove::stop);
  WorkSoFar fallen = worked(250, all_zones());
  fallen.stops = {LogStop::jolted};
  CHECK(standing_of(plan, fallen).move == NextMove::stop);
}

TEST_CASE("a stage that only readings open, begun without them, stops the job", "[log]") {
  PlanDigest plan = two_stage_plan(false, true);
  plan.stages[0].needed = true;
  WorkSoFar w = worked(300, {{Side::top, 1}}, worked(250, all_zones()));
  const JobStanding unread = standing_of(plan, w);
  CHECK(unread.move == NextMove::stop);
  CHECK(has(unread, OffPlan::hotter_than_safe));
  read_sag(w, Side::top, 0, 3.0e-3);
  read_sag(w, Side::bottom, 2, 3.9e-3);  // outside
  CHECK(standing_of(plan, w).move == NextMove::stop);
  read_sag(w, Side::bottom, 2, 3.0e-3);
  const JobStanding opened = standing_of(plan, w);
  CHECK(opened.move == NextMove::work);
  CHECK(opened.next == std::vector<int>{7, 8});
}

TEST_CASE("a stop is not worked away: what a stage read still counts once hotter work has begun", "[log]") {
  const PlanDigest plan = two_stage_plan();
  WorkSoFar tight = worked(300, {{Side::top, 1}}, worked(250, all_zones()));
  CHECK(standing_of(plan, tight).move == NextMove::work);  // the stage is safe without a reading
  read_sag(tight, Side::top, 0, 2.0e-3);                   // pulls more than its window
  CHECK(standing_of(plan, tight).move == NextMove::stop);
  read_sag(tight, Side::top, 0, 3.0e-3);  // read again: the last one counts
  CHECK(standing_of(plan, tight).move == NextMove::work);
  WorkSoFar bent = worked(300, {{Side::top, 1}}, worked(250, all_zones()));
  Measured twist;
  twist.shape = Limit::twist, twist.value = 2.5e-3;
  bent.readings.push_back({F(250), twist, 3});
  CHECK(standing_of(plan, bent).move == NextMove::stop);
}
