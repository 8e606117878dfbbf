#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/sheet/tap_slip.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::reading;
using Catch::Matchers::Contains;

namespace {

TapTold told() {
  TapTold t;
  t.title = "Invented rudder";
  t.behind = BehindTold::either;
  t.areal_mass = 0.09;
  t.stage = 394.26;
  t.expected_from = ExpectedFrom::stage;
  for (int bay = 0; bay < 3; ++bay) {
    TapLine l;
    l.bay = bay, l.tone = 60 + bay;
    l.pull = 300.0, l.low = 200.0, l.high = 450.0, l.expected = 500.0;
    l.others = bay == 0 ? Beside::lower : bay == 1 ? Beside::alike : Beside::higher;
    l.air_over_cloth = 2.7, l.doubt_air = 0.9;
    t.lines.push_back(l);
  }
  return t;
}

}  // namespace

TEST_CASE("the slip of a tap says bay, tone, pull and range, draws the panel, and warns of what reads less") {
  const Plan plan = sample_plan();
  for (const Paper paper : {Paper::letter, Paper::a4}) {
    Folder folder;
    write_tap_slip(told(), plan.panel, paper, "0.0.0", folder / "tap.pdf");
    std::string text;
    for (const auto& page : pages(folder / "tap.pdf")) text += page;
    for (const char* part : {"Tap", "top, bay 1", "60.0 Hz", "1.7", "1.1 – 2.6", "2.9", "TOP", "trailing edge",
                             "work them", "airworthy", "95 of 100"})
      CHECK_THAT(text, Contains(part));
  }
}

TEST_CASE("where no pull can be told the words say so and give no number for it") {
  TapTold t = told();
  for (TapLine& l : t.lines) {
    l.pull = l.low = l.high = {};
    l.shut_in = 0.95, l.ratio = 1.1, l.ratio_off = 0.04;
  }
  t.behind = BehindTold::held;
  const std::string text = viz::tap_text(t, "folder");
  CHECK_THAT(text, Contains("not told") && Contains("95 %") && Contains("bay 2 1.10 (± 0.09)"));
  CHECK_THAT(text, !Contains("N/m"));
}

TEST_CASE("each trouble of a reading has its sentence with the bay and what was read") {
  for (const auto trouble : {TapLine::Trouble::no_field, TapLine::Trouble::too_deep,
                             TapLine::Trouble::too_small_for_disc, TapLine::Trouble::too_low}) {
    TapTold t = told();
    t.lines.resize(1);
    t.lines[0].pull = t.lines[0].low = t.lines[0].high = {};
    t.lines[0].trouble = trouble;
    const auto warnings = viz::tap_warnings(t);
    REQUIRE(warnings.size() == 1);
    CHECK_THAT(warnings[0], Contains("top, bay 1, 60.0 Hz: "));
  }
}

TEST_CASE("top and bottom of a closed bay that sound apart are told, since they should sound as one") {
  TapTold t = told();
  t.expected_from = ExpectedFrom::nothing;
  t.lines.resize(2);
  t.lines[0].tone = 66, t.lines[1].tone = 83;
  t.lines[1].bay = 0, t.lines[1].side = Side::bottom;
  for (TapLine& l : t.lines) l.expected = {};
  CHECK(viz::tap_warnings(t).empty());
  t.behind = BehindTold::skin;
  REQUIRE(viz::tap_warnings(t).size() == 1);
  CHECK_THAT(viz::tap_warnings(t)[0], Contains("bay 1: top and bottom sound apart, 66.0 and 83.0 Hz"));
}
