#include "app/text/terminal.hpp"
#include "tests/support/sample_plan.hpp"
#include "viz/words/plan_summary.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

using namespace evenpull;

namespace {

size_t longest_line(const std::string& text) {
  std::istringstream lines(text);
  std::string line;
  size_t most = 0;
  while (std::getline(lines, line)) {
    const auto n = std::count_if(line.begin(), line.end(), [](unsigned char c) { return (c & 0xC0) != 0x80; });
    most = std::max(most, static_cast<size_t>(n));
  }
  return most;
}

std::string without_escapes(std::string text) {
  for (const std::string code : {"\x1b[1m", "\x1b[0m"})
    for (auto at = text.find(code); at != std::string::npos; at = text.find(code)) text.erase(at, code.size());
  return text;
}

}  // namespace

TEST_CASE("a plan's words keep to the width of the terminal", "[summary]") {
  SampleWish none;
  none.no_ceiling = true;
  for (const auto& wish : {SampleWish{}, none})
    for (size_t width : {50u, 72u, 100u}) {
      const auto text = plan_summary(sample_plan(wish), "results/a", {width, false});
      INFO(text);
      CHECK(longest_line(text) <= width);
    }
}

TEST_CASE("on a screen of 100 letters a plan without doubts or advice takes no more than 30 lines", "[summary]") {
  Plan plan = sample_plan();
  plan.the_case.doubts.clear();
  plan.advice.items.clear();
  const auto text = plan_summary(plan, "results/a");
  CHECK(std::count(text.begin(), text.end(), '\n') <= 30);
}

TEST_CASE("loose cloth is said before the answer, in capitals, and keeps to the width", "[summary]") {
  SampleWish none;
  none.no_ceiling = true;
  Plan plan = sample_plan(none);
  plan.advice.never_tight = true;
  plan.advice.loose = LooseCloth{0, {}};
  for (int z = 0; z + 2 < static_cast<int>(plan.panel.zones.size()); ++z)
    if (z % 3 != 2) plan.advice.loose->zones.push_back(z);
  const auto text = plan_summary(plan, "a", {60, false});
  const auto loose = text.find("NOT TIGHT."), answer = text.find("Hottest safe stage: NONE");
  REQUIRE(loose != std::string::npos);
  CHECK(loose < answer);
  CHECK(text.find("T1, T2") < answer);
  CHECK(longest_line(text) <= 60);
  CHECK(plan_summary(sample_plan(none), "a").find("NOT TIGHT") == std::string::npos);
}

TEST_CASE("a frame that gave way is a word, not a number", "[summary]") {
  SampleWish none;
  none.no_ceiling = true;
  Plan plan = sample_plan(none);
  for (LimitReading& l : plan.limits)
    if (l.limit == Limit::buckling) l.gave_way = true, l.value = 1, l.use = 9;
  const auto text = plan_summary(plan, "a");
  CHECK(text.find("over") != std::string::npos);
  CHECK(text.find("gave way") != std::string::npos);
  CHECK(text.find("9.00") == std::string::npos);
}

TEST_CASE("bold type changes nothing but the type, and is there only where it is welcome", "[summary]") {
  const Plan plan = sample_plan();
  const auto plain = plan_summary(plan, "a", {80, false}), bold_text = plan_summary(plan, "a", {80, true});
  CHECK(plain.find('\x1b') == std::string::npos);
  CHECK(bold_text != plain);
  CHECK(without_escapes(bold_text) == plain);
}

TEST_CASE("a pipe, NO_COLOR and a dumb terminal get no escape sequences", "[summary]") {
  CHECK(terminal_of(true, 80, nullptr, "xterm").bold);
  CHECK(terminal_of(true, 80, "", "xterm").bold);  // no-color.org: an empty value does not count
  CHECK_FALSE(terminal_of(true, 80, "1", "xterm").bold);
  CHECK_FALSE(terminal_of(true, 80, nullptr, "dumb").bold);
  CHECK_FALSE(terminal_of(true, 80, nullptr, nullptr).bold);
  CHECK_FALSE(terminal_of(false, 80, nullptr, "xterm").bold);
}

TEST_CASE("width is the terminal's, within reason", "[summary]") {
  CHECK(terminal_of(true, 72, nullptr, "xterm").width == 72);
  CHECK(terminal_of(true, 300, nullptr, "xterm").width == 100);
  CHECK(terminal_of(true, 5, nullptr, "xterm").width == 40);
  CHECK(terminal_of(true, 0, nullptr, "xterm").width == 100);
  CHECK(terminal_of(false, 72, nullptr, "xterm").width == 100);
}
