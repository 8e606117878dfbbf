// `tap` from one end to the other.
#include "app/command/commands.hpp"
#include "app/command/exit_codes.hpp"
#include "tests/app/case_text.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <functional>
#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

struct Said {
  int code = 0;
  std::string out, err;
};

Said run(const Request& r) {
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

Request tap_of(const TemporaryFolder& folder) {
  Request r;
  r.job = Request::Job::tap;
  r.case_file = std::string(EVENPULL_CASES_DIR) + "/training_panel.toml";
  r.folder = (folder.path / "tapped").string();
  return r;
}

}  // namespace

TEST_CASE("tones and a sag make a page, words and JSON that agree", "[tap]") {
  const TemporaryFolder folder;
  Request r = tap_of(folder);
  r.tap.tones = {"bay 1 top = 60 Hz", "bay 2 top = 72 Hz", "bay 3 top = 60 Hz"};
  r.tap.sags = {"bay 2 top: 200 g = 2.5 mm"};
  r.tap.stage = "250 degF";
  r.json = true;
  const Said said = run(r);
  CHECK(said.err.empty());
  INFO(said.err);
  REQUIRE(said.code == 0);
  CHECK(read_all(folder.path / "tapped/tap.json") == said.out);
  CHECK(std::filesystem::file_size(folder.path / "tapped/tap.pdf") > 2000);
  const auto j = nlohmann::json::parse(said.out);
  REQUIRE(j["readings"].size() == 4);
  const auto& tones = j["readings"];
  for (const auto i : {0, 1, 2}) {
    CHECK(tones[i]["pull_95_N_per_m"][0] < tones[i]["pull_N_per_m"]);
    CHECK(tones[i]["pull_95_N_per_m"][1] > tones[i]["pull_N_per_m"]);
    CHECK(tones[i]["expected_N_per_m"].get<double>() > 0);
    CHECK(tones[i]["shut_in_share"].get<double>() < 0.5);
  }
  CHECK(tones[1]["pull_N_per_m"] > tones[0]["pull_N_per_m"]);
  CHECK(tones[1]["beside_the_others"] == "higher");
  REQUIRE(j["measured"].size() == 1);
  CHECK_THAT(j["measured"][0].get<std::string>(),
             Contains("bay = 2") && Contains("weight = \"200 g\"") && Contains("sag = \"2.5 mm\""));
}

TEST_CASE("with the other skin held no pull is told, and the words say why", "[tap]") {
  const TemporaryFolder folder;
  Request r = tap_of(folder);
  r.tap.tones = {"bay 1 top = 90 Hz", "bay 2 top = 99 Hz"};
  r.tap.behind = "held";
  const Said said = run(r);
  INFO(said.err);
  REQUIRE(said.code == 0);
  CHECK_THAT(said.out, Contains("not told") && Contains("Air shut in makes") && !Contains("95 of 100 jobs"));
}

TEST_CASE("a tap command that makes no sense leaves nothing behind and says one thing", "[tap]") {
  const TemporaryFolder folder;
  const auto complaint_of = [&](const std::function<void(TapRequest&)>& change) {
    Request r = tap_of(folder);
    r.tap.tones = {"bay 1 top = 60 Hz"};
    change(r.tap);
    const Said said = run(r);
    CHECK(said.code == static_cast<int>(ExitCode::bad_case));
    CHECK(said.out.empty());
    CHECK(std::count(said.err.begin(), said.err.end(), '\n') == 1);
    CHECK(!std::filesystem::exists(folder.path / "tapped"));
    return said.err;
  };
  CHECK_THAT(complaint_of([](TapRequest& t) { t.tones = {"bay 1 top = 3000 Hz"}; }), Contains("3000 Hz"));
  CHECK_THAT(complaint_of([](TapRequest& t) { t.tones.clear(); }), Contains("nothing was read"));
  CHECK_THAT(complaint_of([](TapRequest& t) { t.behind = "wall"; }), Contains("say open"));
  CHECK_THAT(complaint_of([](TapRequest& t) { t.stage = "500 degF"; }), Contains("is no stage"));
  CHECK_THAT(complaint_of([](TapRequest& t) { t.plan = "plan.json"; }), Contains("--stage"));
  CHECK_THAT(complaint_of([](TapRequest& t) { t.recordings = {"taps.wav"}; }), Contains("--bay 0 times"));
  CHECK_THAT(complaint_of([](TapRequest& t) { t.recordings = {"none.wav"}, t.bays = {"bay 1 top"}; }),
             Contains("is not there"));
  const auto no_plan = folder.write("notes.json", "{\"a\": 1}");
  CHECK_THAT(complaint_of([&](TapRequest& t) { t.plan = no_plan, t.stage = "250 degF"; }), Contains("is no plan.json"));
}

TEST_CASE("what a plan expects of a side stands beside its readings", "[tap]") {
  const TemporaryFolder folder;
  Request r = tap_of(folder);
  r.tap.tones = {"bay 1 top = 60 Hz"};
  r.tap.stage = "250 degF";
  r.tap.plan = folder.write("planned.json",
                            "{\"stages\": [{\"stage_degF\": 250, \"mean_pull_N_per_m\": {\"chordwise\": {\"top\": 400, "
                            "\"bottom\": 380}, \"spanwise\": {\"top\": 225, \"bottom\": 380}}}]}");
  r.json = true;
  const Said said = run(r);
  INFO(said.err);
  REQUIRE(said.code == 0);
  CHECK(nlohmann::json::parse(said.out)["readings"][0]["expected_N_per_m"] == 300);
  r.tap.plan = folder.write("other.json", "{\"stages\": [{\"stage_degF\": 300}]}");
  CHECK_THAT(run(r).err, Contains("has no stage of 250"));
}
