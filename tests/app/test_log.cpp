// evenpull log: what is typed, what it says, and the plan that goes on from it.
#include "app/command/commands.hpp"
#include "app/input/log_words_in.hpp"
#include "app/input/page_file.hpp"
#include "app/input/plan_file.hpp"
#include "app/input/work_file.hpp"
#include "app/output/plan_json.hpp"
#include "solver/geometry/panel.hpp"
#include "tests/app/case_text.hpp"
#include "viz/words/print.hpp"

#include <nlohmann/json.hpp>

#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

// The template's panel, both stages in one pass by bays, with a window after the first. Numbers of the readings are invented.
Plan plan_for_log() {
  Plan p;
  p.the_case = case_of(base());
  p.panel = build_panel(p.the_case, {200});
  p.ceiling = 1;
  p.stages.resize(2);
  int run = 0;
  for (int stage = 0; stage < 2; ++stage) {
    p.stages[static_cast<std::size_t>(stage)].stage = stage;
    for (const Side side : {Side::top, Side::bottom}) {
      ++run;
      for (int z = 0; z < static_cast<int>(p.panel.zones.size()); ++z) {
        if (p.panel.zones[static_cast<std::size_t>(z)].side != side) continue;
        Step s;
        s.stage = stage, s.pass = 1, s.run = run, s.zone = z, s.dose = 1;
        p.steps.push_back(s);
      }
    }
  }
  StageWindow w;
  w.stage = 0, w.next = 1, w.weight = 0.5, w.bays = {{Side::top, 1, 3e-3, 2.5e-3, 3.6e-3}};
  p.windows = {w};
  p.bench_checks = {{{Side::top, 0, 0.5, 2.8e-3, 3.2e-3, 70, 110}}, {}};
  p.chances.shapes = {{Limit::twist, 0, 0.004, 0.008}};
  return p;
}

struct Bench {
  TemporaryFolder folder;
  Plan plan = plan_for_log();
  std::string case_file = folder.write("mine.toml", base());
  Bench() {
    std::filesystem::create_directory(folder.path / "mine-plan");
    folder.write("mine-plan/plan.json", plan_document(plan, "0"));
  }
  Request request() const {
    Request r;
    r.job = Request::Job::log;
    r.case_file = case_file;
    r.log.plan = (folder.path / "mine-plan").string();
    r.log.file = (folder.path / "mine-log.jsonl").string();
    r.folder = (folder.path / "slip").string();
    return r;
  }
  PlanDigest digest() const { return read_plan_folder(request().log.plan, plan.the_case); }
};

struct LogSaid {
  int code = 0;
  std::string out, err;
};

LogSaid run_it(const Request& r) {
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

LogSaid worked(const Bench& b, const std::vector<std::string>& what, const std::string& sole = "") {
  Request r = b.request();
  r.log.worked = what, r.log.sole = sole;
  return run_it(r);
}

LogSaid read_it(const Bench& b, const std::vector<std::string>& what) {
  Request r = b.request();
  r.log.read = what;
  return run_it(r);
}

}  // namespace

TEST_CASE("a plan's document comes back as the plan that a job follows", "[log]") {
  const Bench b;
  const PlanDigest d = b.digest();
  CHECK(d.title == b.plan.the_case.title);
  CHECK(*d.hottest_safe == Approx(b.plan.the_case.stages[1].temperature));
  REQUIRE(d.steps.size() == b.plan.steps.size());
  for (std::size_t i = 0; i < d.steps.size(); ++i) {
    const Zone& z = b.plan.panel.zones[static_cast<std::size_t>(b.plan.steps[i].zone)];
    CHECK(d.steps[i].label == z.label);
    CHECK(d.steps[i].step.bay == z.bay + 1);
    CHECK(d.steps[i].step.temperature ==
          Approx(b.plan.the_case.stages[static_cast<std::size_t>(b.plan.steps[i].stage)].temperature));
    CHECK(d.steps[i].to_be_ironed);
  }
  REQUIRE(d.stages[0].window.size() == 1);
  CHECK(d.stages[0].window[0].most == Approx(3.6e-3));
  CHECK(d.stages[0].bays.size() == 1);
  REQUIRE(d.stages[0].shapes.size() == 1);
  CHECK(d.stages[0].shapes[0].expected == Approx(0.004 * 0.35));  // over the chord of 350 mm
}

TEST_CASE("zones are typed as next, a run, a side, a bay or by their labels", "[log]") {
  const Bench b;
  const PlanDigest d = b.digest();
  const Case& c = b.plan.the_case;
  const auto count = [&](const std::string& text) { return worked_steps_of(text, "--worked", d, {}, c).size(); };
  const std::size_t zones = b.plan.panel.zones.size();
  CHECK(count("next") == 1);
  CHECK(count("next 3") == 3);
  CHECK(count("run") == zones / 2);
  CHECK(count("stage") == zones);
  CHECK(count("top") == zones / 2);
  CHECK(count("bay 2") == zones / 6);
  CHECK(count("top bay 2") == zones / 12);
  CHECK(count("t1, B1") == 2);
  CHECK(count("300 degF, pass 1: top") == zones / 2);
  CHECK(worked_steps_of("300 degF: T1", "--worked", d, {}, c)[0].temperature == Approx(c.stages[1].temperature));
  const auto refused = [&](const std::string& text) {
    try {
      worked_steps_of(text, "--worked", d, {}, c);
    } catch (const CaseFileError& e) {
      return std::string(e.what());
    }
    return std::string();
  };
  CHECK_THAT(refused("T99"), Contains("--worked") && Contains("no zone of this panel"));
  CHECK_THAT(refused("275 degF: T1"), Contains("no stage of the case or its plan") && Contains("--sole"));
  CHECK_THAT(refused("next 999"), Contains("from 1 to"));
  CHECK_THAT(refused("bay x"), Contains("after bay comes its number"));
  CHECK_THAT(refused(""), Contains("names no zone"));
}

TEST_CASE("a job from its first zone to the next stage: what to do is said at each turn", "[log]") {
  const Bench b;
  LogSaid s = worked(b, {"next 2"});
  REQUIRE(s.code == 0);
  CHECK_THAT(s.out, Contains("NEXT") && Contains("2 of "));
  s = worked(b, {"stage"});
  CHECK_THAT(s.out, Contains("READ FIRST") && Contains("top, bay 2"));
  s = read_it(b, {"top, bay 2: 500 g = 4.5 mm"});
  CHECK_THAT(s.out, Contains("WORK AGAIN") && Contains("more:"));
  s = worked(b, {"250 degF: top bay 2"});
  REQUIRE(s.code == 0);
  s = read_it(b, {"top, bay 2: 500 g = 3.1 mm", "twist = 1 mm"});
  CHECK_THAT(s.out, Contains("NEXT") && Contains("300 °F") && Contains("inside"));
  const auto j = nlohmann::json::parse(read_all(b.folder.path / "slip" / "log.json"));
  CHECK(j.at("move") == "NEXT");
  CHECK(std::filesystem::file_size(b.folder.path / "slip" / "log.pdf") > 2000);
  // The same log is what a plan goes on from.
  Case c = b.plan.the_case;
  const OrderFile order = read_work_file(b.request().log.file, c);
  CHECK(order.steps.size() > b.plan.panel.zones.size());
  CHECK(c.stages[0].doses.size() == 1);
  REQUIRE(order.measured.size() == 3);
  CHECK(order.measured[2].shape == Limit::twist);
}

TEST_CASE("the tone of a tap is logged in hertz or as a note, and a plan takes it", "[log]") {
  const Bench b;
  worked(b, {"stage"});
  CHECK(read_it(b, {"top, bay 2 = 84 Hz", "bay 3 bottom = A2"}).code == 0);
  Case c = b.plan.the_case;
  const OrderFile order = read_work_file(b.request().log.file, c);
  REQUIRE(order.measured.size() == 2);
  CHECK(order.measured[0].tone == Approx(84));
  CHECK(order.measured[1].tone == Approx(110));  // A4 = 440 Hz, two octaves down
  CHECK(order.measured[1].side == Side::bottom);
}

TEST_CASE("a bay that sags less than its window stops the job", "[log]") {
  const Bench b;
  worked(b, {"stage"});
  const LogSaid s = read_it(b, {"top, bay 2: 500 g = 2.0 mm"});
  CHECK_THAT(s.out, Contains("STOP") && Contains("pulls more"));
}

TEST_CASE("an iron that ran hot, and a side at the next stage by mistake, ask for another plan of the rest", "[log]") {
  const Bench hot;
  CHECK_THAT(worked(hot, {"stage"}, "280 degF").out, Contains("PLAN ANEW") && Contains("plan ") && Contains("--from"));
  Case c = hot.plan.the_case;
  const OrderFile order = read_work_file(hot.request().log.file, c);
  CHECK(to_degF(c.stages[0].temperature) == Approx(280));
  CHECK(to_degF(c.stages[1].temperature) == Approx(300));
  CHECK(order.steps[0].temperature == c.stages[0].temperature);

  const Bench side;
  worked(side, {"run"});
  CHECK_THAT(worked(side, {"300 degF: top"}).out, Contains("PLAN ANEW") && Contains("left out"));
}

TEST_CASE("a panel that fell is not planned before its shape was read", "[log]") {
  const Bench b;
  worked(b, {"next 2"});
  Request r = b.request();
  r.log.jolted = "slid off the rests";
  CHECK_THAT(run_it(r).out, Contains("STOP") && Contains("slid off the rests"));
  Case c = b.plan.the_case;
  CHECK_THROWS_WITH(read_work_file(r.log.file, c), Contains("no bow, twist or slip was read since"));
  CHECK(read_it(b, {"250 degF: twist = 0.5 mm"}).code == 0);
  CHECK(read_work_file(r.log.file, c).steps.size() == 2);
}

TEST_CASE("an entry that was a mistake is taken back and stays readable", "[log]") {
  const Bench b;
  worked(b, {"next 2"});
  Request r = b.request();
  r.log.take_back = 1;
  CHECK_THAT(run_it(r).out, Contains("took back entry 1") && Contains("(taken back)"));
  Case c = b.plan.the_case;
  CHECK_THROWS_WITH(read_work_file(r.log.file, c), Contains("nothing to go on from"));
  r.log.take_back = 9;
  const LogSaid s = run_it(r);
  CHECK(s.code == 3);
  CHECK_THAT(s.err, Contains("--take-back") && Contains("2 entries"));
}

TEST_CASE("nonsense readings are refused with what would be plausible, and nothing is logged", "[log]") {
  const Bench b;
  worked(b, {"stage"});
  const std::string before = read_all(b.request().log.file);
  const auto refused = [&](const std::string& text) {
    const LogSaid s = read_it(b, {text});
    CHECK(s.code == 3);
    return s.err;
  };
  CHECK_THAT(refused("top, bay 2: 500 g = 3.4 in"), Contains("usually 1 to 10 mm"));
  CHECK_THAT(refused("top, bay 2: 500 kg = 3.4 mm"), Contains("usually 0.1 to 2 kg"));
  CHECK_THAT(refused("top, bay 12: 500 g = 3.4 mm"), Contains("bay 12") && Contains("bays 1 to 6"));
  CHECK_THAT(refused("top, bay 2 = 3 kHz"), Contains("no tone of a bay of cloth"));
  CHECK_THAT(refused("top, bay 2 = 3.4 mm"), Contains("A sag comes with its weight"));
  CHECK_THAT(refused("twst = 1 mm"), Contains("did you mean twist"));
  CHECK_THAT(refused("twist = 1 m"), Contains("usually up to 5 mm"));
  CHECK_THAT(refused("3.4 mm"), Contains("is not understood"));
  CHECK(read_all(b.request().log.file) == before);
  Request r = b.request();
  r.log.sole = "280 degF";
  CHECK_THAT(run_it(r).err, Contains("--sole") && Contains("--worked"));
}

TEST_CASE("without a plan, with another panel's log or a damaged one the job says what to do", "[log]") {
  const Bench b;
  Request r = b.request();
  r.log.plan = (b.folder.path / "nowhere").string();
  CHECK_THAT(run_it(r).err, Contains("no plan.json") && Contains("--plan"));
  worked(b, {"next"});
  worked(b, {"next"});
  Request other = b.request();
  other.case_file =
      b.folder.write("other.toml", with(base(), "\"1500 mm\", \"1800 mm\"]", "\"1510 mm\", \"1800 mm\"]"));
  CHECK_THAT(run_it(other).err, Contains("another panel"));
  std::string text = read_all(r.log.file);
  text[text.find("ironed")] = 'I';
  b.folder.write("mine-log.jsonl", text);
  Case c = b.plan.the_case;
  CHECK_THROWS_WITH(read_work_file(b.request().log.file, c), Contains("line 2") && Contains("damaged"));
}

TEST_CASE("what a plan's page saved goes into the log once", "[log]") {
  const Bench b;
  const std::string page = b.folder.write(
      "page.json", "{\"evenpull_page\": 1, \"steps\": " + std::to_string(b.plan.steps.size()) +
                       ", \"worked\": [1, 2, 3], \"readings\": [{\"after_degF\": 250, \"side\": \"top\", \"bay\": 2, "
                       "\"weight_g\": 500, \"sag_mm\": 3.1}]}");
  Request r = b.request();
  r.log.page = page;
  CHECK(run_it(r).code == 0);
  const std::string once = read_all(r.log.file);
  CHECK(run_it(r).code == 0);
  CHECK(read_all(r.log.file) == once);
  const LogRead read = read_log_text(once, "l");
  REQUIRE(read.log.entries.size() == 2);
  CHECK(read.log.entries[0].steps.size() == 3);
  CHECK(read.log.entries[1].reading.sag == Approx(3.1e-3));
  b.folder.write("page.json", "{\"evenpull_page\": 1, \"steps\": 5, \"worked\": [], \"readings\": []}");
  CHECK_THAT(run_it(r).err, Contains("another plan"));
  b.folder.write("page.json", "hello");
  CHECK_THAT(run_it(r).err, Contains("cannot be read"));
}
