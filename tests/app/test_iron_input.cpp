// The iron as a person states it, its readings, and the command that makes a card of them.
#include "app/command/commands.hpp"
#include "app/command/exit_codes.hpp"
#include "tests/app/case_text.hpp"

#include <sstream>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

std::string with_iron(const std::string& lines) { return base() + "\n" + lines; }

const std::string readings =
    "[iron]\n[[iron.reading]]\ndial = 2\nsole = [\"205 degF\", \"221 degF\", \"212 degF\"]\n[[iron.reading]]\ndial = "
    "4\n"
    "sole = [\"301 degF\", \"320 degF\", \"312 degF\"]\n[[iron.reading]]\ndial = 5\nsole = \"360 degF\"\n";

struct Said {
  int code = 0;
  std::string out, err;
};

Said run(Request r) {
  std::ostringstream out, err;
  const int code = run_request(r, out, err);
  return {code, out.str(), err.str()};
}

Request iron_of(const TemporaryFolder& folder, std::vector<std::string> given) {
  Request r;
  r.job = Request::Job::iron;
  r.readings = std::move(given);
  r.folder = (folder.path / "card").string();
  return r;
}

}  // namespace

TEST_CASE("readings at the dial are read, and the swing comes from them", "[iron]") {
  const Case c = case_of(with_iron(readings));
  REQUIRE(c.iron.readings.size() == 3);
  CHECK(c.iron.readings[1].dial == 4);
  CHECK(c.iron.readings[1].sole.size() == 3);
  CHECK(c.iron.swing == Approx(19 / 2.0 / 1.8));
  CHECK(case_of(with_iron("[iron]\nswing = \"10 degF\"\n")).iron.swing == Approx(10 / 1.8));
}

TEST_CASE("readings that do not rise are refused with both marks", "[iron]") {
  const auto text = with(with_iron(readings), "\"301 degF\", \"320 degF\", \"312 degF\"", "\"200 degF\"");
  const auto e = complaint(text);
  CHECK(e.key == "iron.reading[2].sole");
  CHECK_THAT(e.what(), Contains("does not rise") && Contains("mark 2") && Contains("mark 4") && Contains("read again"));
}

TEST_CASE("a mark whose mean lies in the damage range is refused, one near it doubted", "[iron]") {
  const auto hot = with(with_iron(readings), "sole = \"360 degF\"", "sole = \"410 degF\"");
  CHECK_THAT(complaint(hot).what(), Contains("400 degF") && Contains("melts"));
  const Case near = case_of(with(with_iron(readings), "sole = \"360 degF\"", "sole = \"385 degF\""));
  REQUIRE_FALSE(near.doubts.empty());
  CHECK_THAT(near.doubts.front(), Contains("mark 5") && Contains("375"));
}

TEST_CASE("a sole larger than the panel is refused", "[iron]") {
  const auto text = with_iron("[iron]\nsole_length = \"0.5 m\"\nsole_width = \"0.4 m\"\n");  // on a chord of 350 mm
  CHECK_THAT(complaint(text).what(), Contains("larger than the panel"));
}

TEST_CASE("a dwell of nothing is refused with what is usual", "[iron]") {
  const auto text = with(base(), "[\"light\", \"light\", \"full\"]", "[\"0 s\", \"3 s\"]");
  const auto e = complaint(text);
  CHECK(e.key == "stage[1].passes[1]");
  CHECK_THAT(e.what(), Contains("heats nothing") && Contains("3 to 4 s"));
}

TEST_CASE("a pass may be stated by its dwell, and its dose follows", "[iron]") {
  const Case c = case_of(with(base(), "[\"light\", \"light\", \"full\"]", "[\"0.6 s\", \"4 s\"]"));
  REQUIRE(c.stages[0].doses.size() == 2);
  CHECK(c.stages[0].dwells == std::vector<double>{0.6, 4});
  CHECK(c.stages[0].doses[0] > 0.1);
  CHECK(c.stages[0].doses[0] < 0.6);
  CHECK(c.stages[0].doses[1] > 0.85);
}

TEST_CASE("the iron check writes its card and says the marks", "[iron]") {
  const TemporaryFolder folder;
  const Said s = run(iron_of(folder, {"2 = 205 degF, 221 degF, 212 degF", "3 = 255 degF, 268 degF, 262 degF",
                                      "4 = 301 degF, 320 degF, 312 degF", "5 = 352 degF, 369 degF, 360 degF"}));
  CHECK(s.err == "");
  CHECK(s.code == 0);
  CHECK_THAT(s.out, Contains("250 °F") && Contains("350 °F") && Contains("iron-card.pdf"));
  CHECK(std::filesystem::file_size(folder.path / "card" / "iron-card.pdf") > 1000);
  CHECK_THAT(read_all(folder.path / "card" / "iron.json"), Contains("\"straight line\""));
}

TEST_CASE("a dial of small numbers gets marks that differ between stages", "[iron]") {
  const TemporaryFolder folder;
  const Said s = run(iron_of(folder, {"0.30 = 250 degF, 251 degF, 249 degF", "0.42 = 350 degF, 351 degF, 349 degF"}));
  CHECK(s.code == 0);
  CHECK_THAT(s.out, Contains("0.300") && Contains("0.360") && Contains("0.420"));
}

TEST_CASE("marks of a case that no dial shows apart are refused at the second of them", "[iron]") {
  const auto e =
      complaint(with_iron("[iron]\n[[iron.reading]]\ndial = 3\nsole = \"250 degF\"\n[[iron.reading]]\ndial = 3.001\n"
                          "sole = \"300 degF\"\n"));
  CHECK(e.key == "iron.reading[2].dial");
  CHECK_THAT(e.what(), Contains("closer than 0.01"));
}

TEST_CASE("the iron check of a case adds how long to hold", "[iron]") {
  const TemporaryFolder folder;
  Request r = iron_of(folder, {});
  r.case_file = folder.write("case.toml", with_iron(readings));
  const Said s = run(r);
  CHECK(s.err == "");
  CHECK_THAT(s.out, Contains(" s\n"));
}

TEST_CASE("the iron check says what is wrong with its readings", "[iron]") {
  const TemporaryFolder folder;
  const auto refused = [&](std::vector<std::string> given, const char* part) {
    const Said s = run(iron_of(folder, std::move(given)));
    CHECK(s.code == static_cast<int>(ExitCode::bad_case));
    CHECK_THAT(s.err, Contains(part));
    CHECK_FALSE(std::filesystem::exists(folder.path / "card"));
  };
  refused({}, "no thermometer readings");
  refused({"3 = 262 degF"}, "two marks");
  refused({"3 = 262 degF", "4 = 250 degF"}, "do not rise");
  refused({"3 = warm", "4 = 300 degF"}, "expected a temperature");
  refused({"mark three"}, "is not a reading");
  refused({"3 = 262 degF", "6 = 420 degF"}, "never use that mark");
  refused({"3x = 255 degF", "4 = 300 degF"}, "\"3x = 255 degF\" is not a reading");
  refused({"nan = 255 degF", "4 = 300 degF"}, "is not a reading");
  refused({"inf = 255 degF", "4 = 300 degF"}, "is not a reading");
  refused({"1e9 = 255 degF", "4 = 300 degF"}, "the mark as a number up to 1000");
  refused({"= 255 degF", "4 = 300 degF"}, "is not a reading");
  refused({"3 =", "4 = 300 degF"}, "does not begin with a number");
  refused({"3 = 255", "4 = 300 degF"}, "has no unit");
  refused({"3 = nan K", "4 = 300 degF"}, "does not begin with a number");
  refused({"3 = 255 degF\x1b[2J", "4 = 300 degF"}, "\\x1b[2J");
  refused({"3 = 5 degF", "4 = 300 degF"}, "makes no sense here");
  refused({"3 = 9000 degF", "4 = 300 degF"}, "makes no sense here");
  std::string many = "3 = 255 degF";
  for (int i = 0; i < 100; ++i) many += ", 255 degF";
  refused({many, "4 = 300 degF"}, "more than 100 temperatures");
  std::vector<std::string> marks;
  for (int i = 0; i < 25; ++i) marks.push_back(std::to_string(i) + " = 255 degF");
  refused(marks, "is given 25 times; 24 marks are the most");
}

TEST_CASE("a swing that no thermostat has is refused", "[iron]") {
  const TemporaryFolder folder;
  for (const auto* swing : {"nan K", "inf K", "-3 K", "400 K", "25", "5 Hz"}) {
    Request r = iron_of(folder, {"3 = 255 degF", "5 = 300 degF"});
    r.swing = swing;
    const Said s = run(r);
    INFO(s.err);
    CHECK(s.code == static_cast<int>(ExitCode::bad_case));
    CHECK_THAT(s.err, Contains("--swing: \"" + std::string(swing) + "\""));
  }
}

TEST_CASE("one mark in a case is too few, and the message names its line", "[iron]") {
  const TemporaryFolder folder;
  Request r = iron_of(folder, {});
  const auto text = with_iron("[iron]\n[[iron.reading]]\ndial = 2\nsole = \"212 degF\"\n");
  r.case_file = folder.write("case.toml", text);
  CHECK_THAT(run(r).err,
             Contains("case.toml:" + std::to_string(line_of(text, "[[iron.reading]]"))) && Contains("two marks"));
  r.case_file = folder.write("case.toml", base());
  CHECK_THAT(run(r).err, Contains("case.toml:" + std::to_string(line_of(base(), "both_sides_reachable"))) &&
                             Contains("no thermometer readings"));
}
