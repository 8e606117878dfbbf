// evenpull old: cloth that was ironed before, and a patch.
#include "app/command/commands.hpp"
#include "tests/app/case_text.hpp"

#include <nlohmann/json.hpp>

#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

struct OldSaid {
  int code = 0;
  std::string out, err;
};

OldSaid ask(const TemporaryFolder& folder, const OldRequest& q) {
  Request r;
  r.job = Request::Job::old;
  r.case_file = folder.write("mine.toml", base());
  r.folder = (folder.path / "slip").string();
  r.old = q;
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

}  // namespace

TEST_CASE("bare cloth is told what more can come, by its sags or its pull", "[old]") {
  const TemporaryFolder folder;
  const OldSaid by_sag =
      ask(folder, {"", {"bay 2 top: 200 g = 2.4 mm", "bay 5 bottom: 200 g = 2.2 mm"}, "250 degF", "none", false});
  REQUIRE(by_sag.code == 0);
  CHECK_THAT(by_sag.out, Contains("It pulls now about") && Contains("perhaps") && Contains("350 °F"));
  const auto j = nlohmann::json::parse(read_all(folder.path / "slip" / "old.json"));
  CHECK(j.at("stages").size() == 3);
  CHECK(j.at("stages")[0].at("perhaps_nothing_more") == true);
  CHECK(j.at("stages")[2].at("perhaps_nothing_more") == false);
  CHECK(j.at("stages")[2].at("low_N_per_m") < j.at("stages")[2].at("high_N_per_m"));
  CHECK(ask(folder, {"1.5 lb/in", {}, "", "none", false}).code == 0);
}

TEST_CASE("coats bar the iron, and so does not knowing", "[old]") {
  const TemporaryFolder folder;
  for (const char* coats : {"on", "not known"}) {
    const OldSaid said = ask(folder, {"1.5 lb/in", {}, "", coats, false});
    CHECK(said.code == 0);
    CHECK_THAT(said.out, Contains("DO NOT IRON") && !Contains("350 °F"));
    CHECK(nlohmann::json::parse(read_all(folder.path / "slip" / "old.json")).at("to_be_ironed") == false);
  }
}

TEST_CASE("a patch is begun low and raised until it sags like its neighbours, also where these have coats", "[old]") {
  const TemporaryFolder folder;
  const OldSaid said = ask(folder, {"2.4 lb/in", {}, "", "on", true});
  CHECK(said.code == 0);
  CHECK_THAT(said.out, Contains("Iron it first at") && Contains("weigh again") && Contains("Keep the sole off"));
}

TEST_CASE("what cannot be asked of old cloth says what would be right", "[old]") {
  const TemporaryFolder folder;
  CHECK_THAT(ask(folder, {"", {}, "", "none", false}).err, Contains("--sag") && Contains("--pull"));
  CHECK_THAT(ask(folder, {"20 lb/in", {}, "", "none", false}).err, Contains("usually 100 to 900 N/m"));
  CHECK_THAT(ask(folder, {"2 lb/in", {}, "", "maybe", false}).err, Contains("--coats") && Contains("none, on"));
  CHECK_THAT(ask(folder, {"0.03 lb/in", {}, "350 degF", "none", false}).err, Contains("slipped, torn or rotted"));
  CHECK_THAT(ask(folder, {"", {"bay 2 top: 500 g = 1.6 mm", "bay 3 top: 100 g = 1.8 mm"}, "", "none", false}).err,
             Contains("too unlike") && Contains("each by itself"));
  CHECK_THAT(ask(folder, {"", {"bay 9 top: 500 g = 6 mm"}, "", "none", false}).err, Contains("bay 9"));
  CHECK_THAT(ask(folder, {"2 lb/in", {}, "350", "none", false}).err, Contains("--seen"));
}
