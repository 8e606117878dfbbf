// What a plan advises in words: each sentence says what it was given, and nothing where there is nothing to say.
#include "solver/geometry/panel.hpp"
#include "tests/support/sample_case.hpp"
#include "tests/support/told.hpp"
#include "viz/words/advice_words.hpp"
#include "viz/words/zone_names.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::viz;
using namespace evenpull::sample;
using Catch::Matchers::Contains;

TEST_CASE(
    "the advice says what is closest up to the safe stage and what stops the next one, with bars unless it is quick") {
  const Case c = aileron();
  const std::vector<StageVerdict> stages = {verdict(0, 0.41, 0.02), verdict(1, 0.83, 0.05), verdict(2, 1.27, 0.04)};
  const Plan plan = told(c, Panel{}, stages, 1);
  CHECK_THAT(because_text(plan),
             Contains("Up to 300") && Contains("0.83 ± 0.05") && Contains("At 350") && Contains("1.27 ± 0.04"));
  CHECK_THAT(because_text(plan), Contains("engineering judgement"));
  CHECK(because_text(told(c, Panel{}, stages, 1, {}, Accuracy::quick)).find("±") == std::string::npos);
  CHECK_THAT(all(advice_sentences(plan)), Contains("Look up which last stage") && Contains("Bracing the frame"));
}

TEST_CASE("where a run behind the bars gave way no bar is printed, and it is said that the error is not known") {
  StageVerdict stopped = verdict(0, 0.9, 1);
  stopped.limits[0].study.gave_way = true;
  const std::string because = because_text(told(aileron(), Panel{}, {stopped}, {}));
  CHECK_THAT(because, Contains("0.90 with an error that is not known"));
  CHECK(because.find("±") == std::string::npos);
}

TEST_CASE("the advice names the setting in between, and that the frame buckles") {
  std::vector<StageVerdict> stages = {verdict(0, 0.4), verdict(1, 0.8), verdict(2, 2)};
  stages[2].buckled = true;
  const Plan plan = told(aileron(), Panel{}, stages, 1, (325 + 459.67) / 1.8);
  CHECK_THAT(because_text(plan), Contains("the frame gives way"));
  CHECK_THAT(all(advice_sentences(plan)), Contains("325") && Contains("not a step of this plan"));
}

TEST_CASE("a last stage that holds, and that the approved data ask for, needs no advice to look anything up") {
  Case c = aileron();
  c.approved_last_stage = c.stages[2].temperature;
  CHECK(advice_sentences(told(c, Panel{}, {verdict(0, 0.2), verdict(1, 0.5), verdict(2, 0.9)}, 2)).empty());
}

TEST_CASE("a safe stage that was done before the plan is not said to hold any limit") {
  std::vector<StageVerdict> stages = {verdict(0, 0), verdict(1, 1.4)};
  stages[0].limits.clear();
  stages[0].summary.done = true;
  const std::string because = because_text(told(aileron(), Panel{}, stages, 0));
  CHECK_THAT(because, Contains("done before this plan") && Contains("not judged") && Contains("what stops it"));
  CHECK(because.find("every limit holds") == std::string::npos);
}

TEST_CASE("no safe stage comes with the advice to stop and ask") {
  const Plan plan = told(aileron(), Panel{}, {verdict(0, 1.4), verdict(1, 2), verdict(2, 3)}, {});
  CHECK_THAT(because_text(plan), Contains("No stage holds"));
  CHECK_THAT(all(advice_sentences(plan)), Contains("Stop and ask") && Contains("evenpull stiffen"));
}

TEST_CASE("a ceiling below what the approved data ask for says stop and ask") {
  Case c = aileron();
  c.approved_last_stage = c.stages[2].temperature;
  const auto advice = advice_sentences(told(c, Panel{}, {verdict(0, 0.4), verdict(1, 0.8), verdict(2, 1.3)}, 1));
  REQUIRE_FALSE(advice.empty());
  CHECK_THAT(advice.front(), Contains("approved data ask for 350") && Contains("stop and ask"));
}

TEST_CASE(
    "a stage left out for its adhesive is not asked to be added: its maker is to be asked, and who holds the data") {
  Case c = aileron();
  c.approved_last_stage = c.stages[2].temperature;
  c.adhesive_bears = c.stages[1].temperature;
  c.too_hot_for_adhesive = {c.stages[2].temperature};
  c.stages.pop_back();
  const std::string said = all(advice_sentences(told(c, Panel{}, {verdict(0, 0.2), verdict(1, 0.5)}, 1)));
  CHECK_THAT(said, Contains("The adhesive bears no more than 300") && Contains("ask its maker") && Contains("350"));
  CHECK_THAT(said, Contains("Stop and ask") && !Contains("Add that stage"));
  c.approved_last_stage.reset();
  CHECK_THAT(all(advice_sentences(told(c, Panel{}, {verdict(0, 0.2), verdict(1, 0.5)}, 1))),
             Contains("ask its maker") && !Contains("Stop and ask"));
}

TEST_CASE("a last stage that was never computed is not called too hot") {
  Case c = aileron();
  c.approved_last_stage = c.stages[1].temperature;  // 300 F
  const auto said = [&](const Case& of, const std::vector<StageVerdict>& stages) {
    return advice_sentences(told(of, Panel{}, stages, 0)).front();
  };
  Case cool = c;
  cool.stages.resize(1);  // ends at 250 F, which holds
  const std::string not_computed = said(cool, {verdict(0, 0.5)});
  CHECK_THAT(not_computed, Contains("not computed") && Contains("Add that stage") && Contains("stop and ask"));
  CHECK(not_computed.find("hotter than this panel bears") == std::string::npos);
  Case leaps = c;
  leaps.stages.erase(leaps.stages.begin() + 1);  // 350 F fails; of 300 F nothing is known
  CHECK_THAT(said(leaps, {verdict(0, 0.5), verdict(1, 1.4)}), Contains("not computed"));
  CHECK_THAT(said(c, {verdict(0, 0.5), verdict(1, 1.4)}), Contains("hotter than this panel bears"));
}

TEST_CASE("loose cloth is said first, with its zones, and is no success") {
  const Case c = aileron();
  const Panel p = build_panel(c, {});
  const auto loose = [&](StageVerdict v, std::vector<int> zones) {
    v.summary.loose_zones = std::move(zones);
    return v;
  };
  std::vector<int> all_zones;
  for (std::size_t z = 0; z < p.zones.size(); ++z) all_zones.push_back(static_cast<int>(z));
  const Plan never = told(c, p, {loose(verdict(0, 0.01), all_zones), loose(verdict(1, 0.02), all_zones)}, {});
  CHECK(loose_headline(never) == "NOT TIGHT");
  CHECK_THAT(loose_sentence(never), Contains("all of the cloth") && Contains("300"));  // the hottest
  CHECK(because_text(never).find("every limit holds") == std::string::npos);
  CHECK_THAT(because_text(never), Contains("does not come tight"));

  // The frame is the reason where its limits break first.
  CHECK(loose_headline(told(c, p, {loose(verdict(0, 1.4), all_zones)}, {})).empty());

  // What was done before is not judged, so nobody says that its limits held.
  StageVerdict before = loose(verdict(0, 0), {0});
  before.limits.clear();
  const Plan going_on = told(c, p, {before, verdict(1, 1.2)}, {});
  CHECK_THAT(because_text(going_on), Contains("is not judged"));
  CHECK(because_text(going_on).find("limits hold") == std::string::npos);
  CHECK(loose_headline(going_on).empty());

  // Loose at 250 F, over the limit at 300 F: both are told.
  const Plan both = told(c, p, {loose(verdict(0, 0.2), {0, 3}), verdict(1, 1.2)}, {});
  CHECK_FALSE(loose_headline(both).empty());
  CHECK_THAT(loose_sentence(both), Contains(p.zones[0].label + " and " + p.zones[3].label));
  CHECK_THAT(because_text(both), Contains("what stops it is stress"));

  // On the way to a tight end: no headline, but a warning not to stop there.
  const Plan way = told(c, p, {loose(verdict(0, 0.2), {0}), verdict(1, 0.5)}, 1);
  CHECK(loose_headline(way).empty());
  CHECK_THAT(loose_sentence(way), Contains("Do not stop there"));
  CHECK(loose_sentence(told(c, p, {verdict(0, 0.2), verdict(1, 0.5)}, 1)).empty());
}

TEST_CASE("whether the way or the end is too much is said with the stage, and the stage that would open the way") {
  Plan plan = told(aileron(), Panel{}, {verdict(0, 0.5), verdict(1, 1.3)}, 0);
  WayThere w;
  w.stage = 1;
  w.fails_on_the_way = true;
  plan.advice.way = w;
  CHECK_THAT(because_text(plan), Contains("At 300") && Contains("what fails is passed through on the way"));
  plan.advice.way->fails_on_the_way = false;
  CHECK_THAT(because_text(plan), Contains("no order helps there"));
  w.extra_stage = (275 + 459.67) / 1.8;
  plan.advice.items = {advice::AddStage{w}};
  CHECK_THAT(all(advice_sentences(plan)), Contains("275") && Contains("add that stage to the case"));
}

TEST_CASE("waves of the trailing edge are told with their depth, and that they stay") {
  Case c = aileron(3, 0.9);
  c.span_members.back().make.shape.wall = 0.4e-3;
  const Panel panel = build_panel(c, {200});
  LimitReading waves;
  waves.limit = Limit::waves;
  waves.stage = 1;
  waves.value = waves.use = 2.2;
  waves.allowed = 1;
  waves.where.kind = Place::Kind::along_member;
  waves.where.station = panel.joints[panel.edge_joint[panel.rib_columns[1]]].position.y();
  for (std::size_t m = 0; m < panel.members.size(); ++m)
    if (panel.members[m].role == MemberRole::trailing_edge) waves.where.member = static_cast<int>(m);
  Plan plan = told(c, panel, {verdict(0, 0.41, 0.02), verdict(1, 0.83, 0.05)}, 1);
  plan.limits = {waves};
  CHECK_THAT(because_text(plan), Contains("At 300") && Contains("wavy") && Contains("by about") && Contains("mm") &&
                                     Contains("do not go away") && Contains("bars no stage"));
  plan.limits.front().use = 0.9;
  CHECK(because_text(plan).find("wavy") == std::string::npos);
}

TEST_CASE("crippling that stops a stage says what helps") {
  StageVerdict stopped = verdict(0, 1.3, 0.02);
  stopped.limits[0].limit = Limit::crippling;
  CHECK_THAT(because_text(told(aileron(), Panel{}, {stopped}, {})), Contains("crippling") && Contains("Thicker sheet"));
}
