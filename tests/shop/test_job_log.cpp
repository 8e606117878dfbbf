// A job's log, folded into what a plan can go on from.
#include "shop/job_log.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

double F(double fahrenheit) { return (fahrenheit + 459.67) / 1.8; }

Case three_stages() {
  Case c = sample::light_rudder(3);
  c.stages.clear();
  for (const double t : {250.0, 300.0, 350.0}) c.stages.push_back({F(t), {1, 1}, {}, false});
  c.spreads.sole = 4;
  return c;
}

LogEntry ironed(double stage, int pass, Side side, const std::vector<int>& bays, std::optional<double> sole = {}) {
  LogEntry e;
  e.kind = LogEntry::Kind::ironed;
  for (const int bay : bays) e.steps.push_back({F(stage), pass, side, bay, 1, 1});
  if (sole) e.sole = F(*sole);
  e.passes = 2;
  return e;
}

LogEntry shape_read(double after) {
  LogEntry e;
  e.kind = LogEntry::Kind::read, e.after = F(after);
  e.reading.shape = Limit::twist, e.reading.value = 1e-3;
  return e;
}

LogEntry jolted() {
  LogEntry e;
  e.kind = LogEntry::Kind::jolted;
  return e;
}

LogEntry takes_back(int entry) {
  LogEntry e;
  e.kind = LogEntry::Kind::taken_back, e.takes_back = entry;
  return e;
}

const std::vector<int> all_bays = {1, 2, 3};

std::vector<LogEntry> both_sides(double stage, int pass, std::optional<double> sole = {}) {
  return {ironed(stage, pass, Side::top, all_bays, sole), ironed(stage, pass, Side::bottom, all_bays, sole)};
}

void add(JobLog& log, const std::vector<LogEntry>& entries) {
  log.entries.insert(log.entries.end(), entries.begin(), entries.end());
}

std::vector<double> temperatures(const Case& c) {
  std::vector<double> out;
  for (const Stage& s : c.stages) out.push_back(std::round(s.temperature * 1.8 - 459.67));
  return out;
}

}  // namespace

TEST_CASE("what was taken back does not count, and taking back can be taken back", "[log]") {
  JobLog log;
  add(log, {ironed(250, 1, Side::top, {1}), ironed(250, 1, Side::top, {2}), takes_back(1)});
  CHECK(entries_that_hold(log) == std::vector<int>{2});
  CHECK(work_so_far(log, three_stages()).steps.size() == 1);
  add(log, {takes_back(3)});
  CHECK(entries_that_hold(log) == std::vector<int>{1, 2});
}

TEST_CASE("work as planned leaves the stages as they are", "[log]") {
  const Case c = three_stages();
  JobLog log;
  add(log, both_sides(250, 1));
  const WorkSoFar work = work_so_far(log, c);
  CHECK(work.steps.size() == 6);
  CHECK(work.stops.empty());
  CHECK_FALSE(work.sole_differed);
  CHECK_FALSE(work.out_of_turn);
  const Case after = case_as_worked(c, work);
  CHECK(temperatures(after) == std::vector<double>{250, 300, 350});
  CHECK(after.stages[0].doses.size() == 2);
  CHECK(stages_whole(after, work, 6) == std::vector<bool>{false, false, false});  // of two passes one
  add(log, both_sides(250, 2));
  CHECK(stages_whole(after, work_so_far(log, c), 6)[0]);
}

TEST_CASE("an iron that ran hot is reckoned at what it truly was, one within its usual error is not", "[log]") {
  const Case c = three_stages();
  JobLog log;
  add(log, both_sides(250, 1, 280));
  add(log, both_sides(250, 2, 280));
  const WorkSoFar work = work_so_far(log, c);
  CHECK(work.sole_differed);
  const Case after = case_as_worked(c, work);
  // 250 degF is past: cloth that saw 280 does not grow back.
  CHECK(temperatures(after) == std::vector<double>{280, 300, 350});
  CHECK(stages_whole(after, work, 6)[0]);
  JobLog near;
  add(near, both_sides(250, 1, 255));
  CHECK_FALSE(work_so_far(near, c).sole_differed);
  CHECK(temperatures(case_as_worked(c, work_so_far(near, c)))[0] == 250);
  // What happened to be the next stage is that stage.
  JobLog next;
  add(next, both_sides(250, 1, 300.4));
  CHECK(temperatures(case_as_worked(c, work_so_far(next, c))) == std::vector<double>{300, 350});
}

TEST_CASE(
    "a whole side at the next stage by mistake is taken as worked, and cooler work after it as if it had come before",
    "[log]") {
  const Case c = three_stages();
  JobLog log;
  add(log, both_sides(250, 1));
  add(log, {ironed(300, 1, Side::top, all_bays)});
  const WorkSoFar one_side = work_so_far(log, c);
  CHECK(temperatures(case_as_worked(c, one_side)) == std::vector<double>{250, 300, 350});
  CHECK_FALSE(one_side.out_of_turn);
  add(log, {ironed(250, 2, Side::bottom, all_bays)});
  const WorkSoFar back = work_so_far(log, c);
  CHECK(back.out_of_turn);
  for (std::size_t i = 1; i < back.steps.size(); ++i) CHECK(back.steps[i].temperature >= back.steps[i - 1].temperature);
  CHECK(back.steps.size() == one_side.steps.size() + 3);
}

TEST_CASE("after a fall nothing goes on until a shape was read, and shapes read before it are forgotten", "[log]") {
  const Case c = three_stages();
  JobLog log;
  add(log, both_sides(250, 1));
  add(log, {shape_read(250), jolted()});
  const WorkSoFar fallen = work_so_far(log, c);
  CHECK(fallen.stops == std::vector<LogStop>{LogStop::jolted});
  CHECK(fallen.readings.empty());
  add(log, {shape_read(250)});
  const WorkSoFar read = work_so_far(log, c);
  CHECK(read.stops.empty());
  CHECK(read.readings.size() == 1);
}

TEST_CASE("a sole where polyester loses its tension stops the job", "[log]") {
  JobLog log;
  add(log, both_sides(350, 1, 390));
  CHECK(work_so_far(log, three_stages()).stops == std::vector<LogStop>{LogStop::sole_above_planned});
}

TEST_CASE("a reading follows its stage to what that was worked at", "[log]") {
  const Case c = three_stages();
  JobLog log;
  add(log, both_sides(250, 1, 280));
  add(log, {shape_read(250)});
  const WorkSoFar work = work_so_far(log, c);
  const Case after = case_as_worked(c, work);
  const std::vector<Measured> readings = readings_for(after, work);
  REQUIRE(readings.size() == 1);
  CHECK(readings[0].stage == 0);
}

TEST_CASE("a panel is told from another by its outline, ribs and zones, not by its cloth", "[log]") {
  const Case c = three_stages();
  Case cloth = c, wider = c, rib = c;
  cloth.cloth.areal_mass *= 2;
  for (PlanPoint& p : wider.outline.trailing_edge) p.x += 1e-3;
  rib.ribs[1].station += 5e-3;
  CHECK(panel_mark(c, 3, 1) == panel_mark(cloth, 3, 1));
  CHECK(panel_mark(c, 3, 1) != panel_mark(wider, 3, 1));
  CHECK(panel_mark(c, 3, 1) != panel_mark(rib, 3, 1));
  CHECK(panel_mark(c, 3, 1) != panel_mark(c, 3, 2));
  CHECK(panel_mark(c, 3, 1).size() == 8);
}
