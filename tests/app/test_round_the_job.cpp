// The commands round the ironing: glue, weigh, clock, signoff.
#include "app/command/commands.hpp"
#include "app/output/plan_json.hpp"
#include "app/text/checksum.hpp"
#include "solver/geometry/panel.hpp"
#include "tests/app/case_text.hpp"
#include "viz/words/clock_words.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

struct JobSaid {
  int code = 0;
  std::string out, err;
};

JobSaid said_of(const Request& r) {
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

const char* const adhesive_table =
    "[adhesive]\nhottest = \"300 degF\"\nwaiting_time = \"15 min\"\nbetween_coats = \"10 min\"\n";

struct JobBench {
  TemporaryFolder folder;
  Request ask(Request::Job job, const std::string& text = base() + adhesive_table) const {
    Request r;
    r.job = job;
    r.case_file = folder.write("mine.toml", text);
    r.folder = (folder.path / "slip").string();
    return r;
  }
  nlohmann::json told(const std::string& name) const {
    return nlohmann::json::parse(read_all(folder.path / "slip" / (name + ".json")));
  }
  // A plan of two stages; the hours are invented.
  std::string planned() const {
    Plan p;
    p.the_case = case_of(base());
    p.panel = build_panel(p.the_case, {200});
    p.ceiling = 1;
    p.stages.resize(2);
    p.stages[1].stage = 1;
    p.times = {{0, 1000, 300, 600, 5}, {1, 2000, 120, 600, 2}};
    std::filesystem::create_directory(folder.path / "mine-plan");
    folder.write("mine-plan/plan.json", plan_document(p, "0"));
    return (folder.path / "mine-plan").string();
  }
};

Request demo(const TemporaryFolder& folder, const char* name, Request::Job job) {
  Request r;
  r.job = job;
  r.case_file = std::string(EVENPULL_CASES_DIR) + "/" + name;
  r.folder = (folder.path / "slip").string();
  return r;
}

}  // namespace

TEST_CASE("an aileron in one full wrap takes about two fluid ounces of adhesive, by the defaults", "[glue]") {
  // Common practice, no source: about 2 fl oz (59 mL) for one aileron. The coverage was set by it, so this holds it there.
  const TemporaryFolder folder;
  REQUIRE(said_of(demo(folder, "metal_aileron.toml", Request::Job::glue)).code == 0);
  const auto j = nlohmann::json::parse(read_all(folder.path / "slip" / "glue.json"));
  CHECK(j.at("in_all").at("likely_mL").get<double>() == Approx(59).epsilon(0.25));
  CHECK(j.at("in_all").at("low_mL") < 59);
  CHECK(j.at("in_all").at("high_mL") > 59);
}

TEST_CASE("every demo case is glued and weighed", "[glue][weigh]") {
  for (const auto& entry : std::filesystem::directory_iterator(EVENPULL_CASES_DIR)) {
    if (entry.path().extension() != ".toml") continue;
    INFO(entry.path());
    const TemporaryFolder folder;
    const std::string name = entry.path().filename().string();
    CHECK(said_of(demo(folder, name.c_str(), Request::Job::glue)).code == 0);
    std::filesystem::remove_all(folder.path / "slip");
    CHECK(said_of(demo(folder, name.c_str(), Request::Job::weigh)).code == 0);
  }
}

TEST_CASE("stages hotter than the adhesive bears drop out of what is planned, and it is said", "[glue]") {
  const Case c = case_of(base() + adhesive_table);
  REQUIRE(c.stages.size() == 2);
  CHECK(c.too_hot_for_adhesive.size() == 1);
  REQUIRE(!c.doubts.empty());
  CHECK_THAT(c.doubts.front(), Contains("350 °F") && Contains("ask its maker"));
  CHECK(std::any_of(c.doubts.begin(), c.doubts.end(),
                    [](const std::string& d) { return d.find("swings") != std::string::npos; }));
  const JobBench bench;
  CHECK_THAT(said_of(bench.ask(Request::Job::survey)).out, Contains("ask its maker"));
  std::filesystem::remove_all(bench.folder.path / "slip");
  CHECK_THAT(said_of(bench.ask(Request::Job::glue)).out, Contains("ask its maker") && Contains("swings"));
  CHECK(bench.told("glue").at("stages_left_out_degF").size() == 1);
  CHECK(case_of(base() + "[adhesive]\nhottest = \"177 degC\"\n").stages.size() == 3);  // 350 degF but for a rounding
}

TEST_CASE("an adhesive of unknown heat is asked for and never guessed", "[glue]") {
  const JobBench bench;
  const JobSaid said = said_of(bench.ask(Request::Job::glue, base()));
  CHECK_THAT(said.out, Contains("not stated: ask its maker") && Contains("adhesive.hottest"));
  CHECK(bench.told("glue").at("hottest_degF").is_null());
  CHECK(bench.told("glue").at("waiting_s").is_null());
  CHECK(case_of(base()).stages.size() == 3);
}

TEST_CASE("the covering is weighed, and beside an old one what changed", "[weigh]") {
  const JobBench bench;
  Request r = bench.ask(Request::Job::weigh, base() + "[coats]\ndry_mass = \"100 g/m^2\"\n[tapes]\n");
  r.weigh.old_mass = "310 g", r.weigh.old_at = "120 mm";
  const JobSaid said = said_of(r);
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out, Contains("flutter-critical") && Contains("NEW LESS OLD") && !Contains("not known"));
  const auto j = bench.told("weigh");
  CHECK(j.at("parts").size() == 5);
  CHECK(j.at("old").at("moment_kg_m").get<double>() == Approx(0.310 * 0.120));
  CHECK(j.at("new_less_old").at("mass_kg").get<double>() ==
        Approx(j.at("new").at("mass_kg").get<double>() - 0.310).margin(1e-5));
}

TEST_CASE("what cannot be weighed says what would be right", "[weigh]") {
  const JobBench bench;
  const auto complaint_of = [&](const WeighRequest& q, const std::string& text = base()) {
    Request r = bench.ask(Request::Job::weigh, text);
    r.weigh = q;
    const JobSaid said = said_of(r);
    CHECK(said.code == 3);
    return said.err;
  };
  CHECK_THAT(complaint_of({"", "", "main spar"}), Contains("--about") && Contains("leading edge tube"));
  CHECK_THAT(complaint_of({"", "120 mm", ""}), Contains("--old-at") && Contains("--old"));
  CHECK_THAT(complaint_of({"310", "", ""}), Contains("--old") && Contains("has no unit"));
  CHECK_THAT(complaint_of({"310 kg", "", ""}), Contains("usually weigh"));
  const std::string no_hinge = with(base(), "as = \"sliding hinge\"", "as = \"rest\"");
  CHECK_THAT(complaint_of({"310 g", "120 mm", ""}, no_hinge), Contains("hinge line") && Contains("--about"));
}

TEST_CASE("without a hinge line the mass is told and no moment, and odd cloth is named", "[weigh]") {
  const JobBench bench;
  const std::string no_hinge = with(base(), "as = \"sliding hinge\"", "as = \"rest\"");
  const JobSaid said =
      said_of(bench.ask(Request::Job::weigh, with(no_hinge, "class = \"medium\"", "areal_mass = \"300 g/m^2\"")));
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out, Contains("no hinge line") && Contains("is no weight that cloth for this has"));
  CHECK(bench.told("weigh").at("new").at("moment_kg_m").is_null());
}

TEST_CASE("the work list has the hours of its plan and a clock", "[clock]") {
  const JobBench bench;
  Request r = bench.ask(Request::Job::clock);
  r.clock.from = bench.planned(), r.clock.start = "9:00";
  const JobSaid said = said_of(r);
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out, Contains("[ ] 9:00") && Contains("250 °F") && Contains("300 °F"));
  double ironing = 0;
  const auto clock = bench.told("clock");
  for (const auto& i : clock.at("items")) {
    CHECK(i.at("begins_known") == true);
    if (!i.at("stage_degF").is_null()) ironing += i.at("seconds").get<double>();
  }
  CHECK(ironing == Approx(1000 + 300 + 600 + 2000 + 120 + 600));
  r.clock.from += "/plan.json";
  std::filesystem::remove_all(bench.folder.path / "slip");
  CHECK(said_of(r).out == said.out);
}

TEST_CASE("a clock counts over midnight and says what it does not know", "[clock]") {
  ClockItem i;
  i.begins = 3 * 3600 + 60;
  CHECK(viz::clock_text(i, 9 * 3600.0) == "12:01");
  CHECK(viz::clock_text(i, 22.5 * 3600) == "1:31 day 2");
  CHECK(viz::clock_text(i, {}) == "+3:01");
  i.known = false;
  CHECK(viz::clock_text(i, 9 * 3600.0) == "after 12:01");
}

TEST_CASE("no sentence of the list says that anything is dry", "[clock]") {
  for (const char* adhesive : {adhesive_table, ""}) {
    const JobBench bench;
    Request r = bench.ask(Request::Job::clock, base() + adhesive);
    r.clock.from = bench.planned();
    REQUIRE(said_of(r).code == 0);
    for (const auto& i : bench.told("clock").at("items"))
      CHECK_THAT(i.at("in_words").get<std::string>(), !Contains("dry"));
  }
}

TEST_CASE("a start that is no time of the day is refused, and a plan that is not there", "[clock]") {
  const JobBench bench;
  for (const char* start : {"25:00", "9", "9:60", "nine", "9:00 pm"}) {
    Request r = bench.ask(Request::Job::clock);
    r.clock.start = start;
    const JobSaid said = said_of(r);
    CHECK(said.code == 3);
    CHECK_THAT(said.err, Contains("--start") && Contains("like 9:00 or 14:30"));
  }
  Request r = bench.ask(Request::Job::clock);
  r.clock.from = (bench.folder.path / "nowhere").string();
  CHECK_THAT(said_of(r).err, Contains("holds no plan.json"));
}

TEST_CASE("a sign-off page without plan and log says what is missing and names the case by its checksum", "[signoff]") {
  const JobBench bench;
  const Request r = bench.ask(Request::Job::signoff);
  const JobSaid said = said_of(r);
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out,
             Contains("NOT TO BE SIGNED YET") && Contains("No plan was given") && Contains("licensed mechanic"));
  CHECK(bench.told("signoff").at("files").at(0).at("sha256") == sha256(base() + adhesive_table));
}

TEST_CASE("a sign-off page sets what was logged beside the plan", "[signoff]") {
  const JobBench bench;
  Request log = bench.ask(Request::Job::log);
  log.log.plan = bench.planned(), log.log.file = (bench.folder.path / "mine-log.jsonl").string();
  log.log.remark = "iron borrowed";
  REQUIRE(said_of(log).code == 0);
  std::filesystem::remove_all(bench.folder.path / "slip");
  Request r = bench.ask(Request::Job::signoff);
  r.sign_off = {log.log.plan, log.log.file};
  const JobSaid said = said_of(r);
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out, Contains("iron borrowed") && Contains("Nothing was read"));
  CHECK(bench.told("signoff").at("files").size() == 3);
  CHECK(bench.told("signoff").at("log_entries") == 1);
}

TEST_CASE("the checksum is SHA-256", "[signoff]") {
  // FIPS 180-4; the examples that NIST publishes with it, from memory, and again by sha256sum.
  CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}
