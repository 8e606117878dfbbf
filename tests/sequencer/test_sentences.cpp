// What a plan says in words: each sentence says what it was given, and nothing where there is nothing to say.
#include "sequencer/choice/front.hpp"
#include "sequencer/choice/mid_work.hpp"
#include "sequencer/choice/pass_choice.hpp"
#include "sequencer/plan/temperature_text.hpp"
#include "sequencer/planner/advice.hpp"
#include "sequencer/planner/plan_notes.hpp"
#include "sequencer/replay/replay.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;
using Catch::Matchers::Contains;

namespace {

StageVerdict verdict(int stage, double use, double bar = 0) {
  StageVerdict v;
  v.stage = stage;
  LimitReading l;
  l.limit = Limit::stress, l.where = "end rib 1", l.when = Moment::on_the_way, l.stage = stage;
  l.value = l.use = use, l.allowed = 1, l.use_plus_minus = bar;
  v.limits = {l};
  return v;
}

std::string all(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& s : sentences) text += s + "\n";
  return text;
}

PassTrial trial(std::vector<double> doses, int stages, double use, bool chosen) {
  PassTrial t;
  t.doses = std::move(doses), t.stages_passed = stages, t.use = use, t.chosen = chosen;
  return t;
}

Tried ran(Family family, const Panel& p, double use, double spread) {
  Tried t;
  t.order.family = family;
  Step s;
  t.result.planned = t.result.steps = {s};
  number_steps(p, t.result.planned);
  t.result.stages = {verdict(0, use)};
  t.result.stages[0].spread_along_span = spread;
  return t;
}

}  // namespace

TEST_CASE("temperatures are said in both scales") {
  CHECK_THAT(temperature_text(394.2611), Contains("250 \xC2\xB0""F") && Contains("121 \xC2\xB0""C"));
  CHECK_THAT(temperature_text(449.8167), Contains("350") && Contains("177"));
}

TEST_CASE("the advice says what is closest up to the safe stage and what stops the next one, with bars unless it is quick") {
  const Case c = sample::aileron();
  const std::vector<StageVerdict> stages = {verdict(0, 0.41, 0.02), verdict(1, 0.83, 0.05), verdict(2, 1.27, 0.04)};
  const Advice a = advise(c, Panel{}, stages, 1, {}, false);
  CHECK_THAT(a.because, Contains("Up to 300") && Contains("0.83 ± 0.05") && Contains("At 350") && Contains("1.27 ± 0.04"));
  CHECK_THAT(a.because, Contains("engineering judgement"));
  const Advice quick = advise(c, Panel{}, stages, 1, {}, true);
  CHECK(quick.because.find("±") == std::string::npos);
  CHECK_THAT(all(a.advice), Contains("Look up which last stage") && Contains("Bracing the frame"));
}

TEST_CASE("the advice names the setting in between, and that the frame buckles") {
  const Case c = sample::aileron();
  std::vector<StageVerdict> stages = {verdict(0, 0.4), verdict(1, 0.8), verdict(2, 2)};
  stages[2].buckled = true;
  const Advice a = advise(c, Panel{}, stages, 1, (325 + 459.67) / 1.8, false);
  CHECK_THAT(a.because, Contains("the frame gives way"));
  CHECK_THAT(all(a.advice), Contains("325") && Contains("not a step of this plan"));
}

TEST_CASE("a last stage that holds, and that the approved data ask for, needs no advice to look anything up") {
  Case c = sample::aileron();
  c.approved_last_stage = c.stages[2].temperature;
  CHECK(advise(c, Panel{}, {verdict(0, 0.2), verdict(1, 0.5), verdict(2, 0.9)}, 2, {}, false).advice.empty());
}

TEST_CASE("a safe stage that was done before the plan is not said to hold any limit") {
  const Case c = sample::aileron();
  std::vector<StageVerdict> stages = {verdict(0, 0), verdict(1, 1.4)};
  stages[0].limits.clear();
  stages[0].summary.done = true;
  const Advice a = advise(c, Panel{}, stages, 0, {}, false);
  CHECK_THAT(a.because, Contains("done before this plan") && Contains("not judged") && Contains("what stops it"));
  CHECK(a.because.find("every limit holds") == std::string::npos);
}

TEST_CASE("notes on the model are made above what is worth saying, and not below") {
  const Case c = sample::aileron();
  Panel p;
  StageVerdict quiet = verdict(0, 0.5);
  quiet.lift = 0.04, quiet.frame_turn = 0.4 / 57.3;
  quiet.summary.thickness_loss.loss = 0.2e-3;
  CHECK(notes_on(c, p, {quiet}, 0).empty());
  StageVerdict loud = quiet;
  loud.lift = 0.06, loud.frame_turn = 0.6 / 57.3;
  loud.summary.thickness_loss = {};
  loud.summary.thickness_loss.loss = 3e-3, loud.summary.thickness_loss.thickness = 30e-3;
  loud.summary.thickness_loss.bay = 1, loud.summary.thickness_loss.chord_fraction = 0.4;
  p.fullness = 0.01;
  const std::string text = all(notes_on(c, p, {loud}, 0));
  CHECK_THAT(text, Contains("0.06 N") && Contains("0.60 degrees") && Contains("1.0 % of fullness"));
  CHECK_THAT(text, Contains("3.0 mm") && Contains("10 % of its thickness") && Contains("bay 2, 40 % of the chord"));
  // Only up to the safe stage; that the frame gives way is said of any.
  StageVerdict hotter = loud;
  hotter.stage = 1, hotter.buckled = true;
  p.fullness = 0;
  CHECK(notes_on(c, p, {quiet, hotter}, 0).size() == 1);
  CHECK_THAT(all(notes_on(c, p, {quiet, hotter}, 0)), Contains("gives way at 300"));
}

TEST_CASE("what light passes gain is said for each stage that was tried") {
  const Case c = sample::aileron();
  CHECK(passes_sentence(c, {}).empty());
  Case unlike = c;
  unlike.light_dose = 1;  // no lighter than a full one
  CHECK_THAT(passes_sentence(unlike, {trial({1}, 2, 0.9, true)}), Contains("too unlike"));
  CHECK_THAT(passes_sentence(c, {trial({1}, 2, 0.9, true)}), Contains("with light ones no equilibrium was found"));
  CHECK_THAT(passes_sentence(c, {trial({1}, 2, 0.9, true), trial({0.25, 1}, 2, 0.895, false)}), Contains("gain too little"));
  CHECK_THAT(passes_sentence(c, {trial({1}, 2, 0.9, false), trial({0.25, 0.25, 1}, 2, 0.7, true)}),
             Contains("2 light passes first") && Contains("0.70, without 0.90"));
  CHECK_THAT(passes_sentence(c, {trial({1}, 1, 0.9, false), trial({0.25, 1}, 2, 0.7, true)}),
             Contains("1 light pass first") && Contains("a stage less"));
  PassTrial later = trial({1, 1}, 2, 0.9, true);
  later.stage = 1;
  const std::string both = passes_sentence(c, {trial({1}, 2, 0.9, true), later});
  CHECK_THAT(both, Contains("250") && Contains("300"));
}

TEST_CASE("steps done are spoken of only where they have loaded the frame too hard or brought it down") {
  RestFound found;
  found.use_so_far = 0.99;
  CHECK(steps_done_note(found).empty());
  found.use_so_far = 1.234;
  CHECK_THAT(steps_done_note(found), Contains("use 1.23") && Contains("inspect"));
  found.stands = false;
  CHECK_THAT(steps_done_note(found), Contains("gives way in the steps that are done"));
}

TEST_CASE("a zone that must wait is named with those that come before it, and worked next it would load the frame harder") {
  // The top of the first bay is worked and has twisted the frame: its bottom has to follow before anything else. Twist is
  // made to decide.
  Case c = sample::light_rudder(3);
  c.stages.resize(1);
  c.stages[0].doses = {1};
  for (Material& m : c.materials) m.strength *= 100;
  c.limits.bow_per_spacing = c.limits.slip = 10;
  c.limits.twist *= 0.3;
  const Model m(c, {search_nodes});
  const Panel& p = m.panel;
  std::vector<Step> done(static_cast<std::size_t>(p.strips));
  for (int k = 0; k < p.strips; ++k) done[static_cast<std::size_t>(k)].zone = p.zone(Side::top, 0, k);
  const RestFound found = search_rest(c, done, 1, one_by_one);
  REQUIRE(found.rest.size() == p.zones.size() - done.size());
  REQUIRE_FALSE(found.waits.empty());
  const auto worst = [&](const std::vector<int>& next) {
    std::vector<Step> steps = done;
    for (int z : next) steps.emplace_back().zone = z;
    double use = 0;
    for (const Tally& t : replay(m, steps, {}).moments) use = std::max(use, t.use);
    return use;
  };
  const double best = worst(found.rest);
  for (const std::string& w : found.waits) {
    INFO(w);
    CHECK_THAT(w, Contains(" must not be ironed before " + p.zones[found.rest.front()].label));
    const std::string label = w.substr(0, w.find(' '));
    const auto zone = std::find_if(p.zones.begin(), p.zones.end(), [&](const Zone& z) { return z.label == label; });
    REQUIRE(zone != p.zones.end());
    CHECK(worst({static_cast<int>(zone - p.zones.begin())}) > best);
  }
}

TEST_CASE("steady working is set beside jumping only where both were run to their end") {
  const Panel p = build_panel(sample::aileron(3, 0.9, 0.3), {120});
  const Tried steady = ran(Family::root_to_tip, p, 0.9, 80), jumps = ran(Family::jumping, p, 0.8, 60);
  CHECK_THAT(steady_against_jumping({steady, jumps}, p, 0),
             Contains("0.90") && Contains("80 N/m") && Contains("0.80") && Contains("60 N/m") && Contains("steady is not better"));
  CHECK_THAT(steady_against_jumping({ran(Family::root_to_tip, p, 0.7, 80), jumps}, p, 0),
             Contains("not worse by both"));
  CHECK(steady_against_jumping({steady}, p, 0).empty());
  Tried fell = jumps;
  fell.result.stages[0].buckled = true;
  CHECK(steady_against_jumping({steady, fell}, p, 0).empty());
}

TEST_CASE("notes about other meshes and left-out runs name what they are about") {
  CHECK_THAT(gave_way_elsewhere(394.26), Contains("frame gives way at 250") && Contains("not safe"));
  CHECK_THAT(unsolved_elsewhere(394.26), Contains("no equilibrium was found up to the end of 250") && Contains("not safe"));
  CHECK(left_out({}).empty());
  CHECK(left_out({"a"}) == "No equilibrium was found in \"a\": it was left out.");
  CHECK(left_out({"a", "b"}) == "No equilibrium was found in \"a\", \"b\": they were left out.");
  CHECK_THAT(bars_decide(422.04, AccuracyWish::normal), Contains("up to 300") && Contains("--accuracy fine"));
  CHECK(bars_decide(422.04, AccuracyWish::fine).find("--accuracy") == std::string::npos);
}

TEST_CASE("a search with steps that found no equilibrium claims nothing about other orders") {
  Case c = sample::aileron();
  StageSearch s;
  s.model = "of this test", s.things = 6, s.cost = 1, s.use = 0.8, s.steps = 700, s.unsolved = 3;
  CHECK_THAT(gap_sentence(c, {s}, 0), Contains("nothing is proven") && Contains("3 of 700 steps") && Contains("0.80"));
}

TEST_CASE("an order that gave way stands on no front, and is never better than one that stands") {
  OrderResult fell, stands;
  fell.name = "fell", fell.worst_use = 2, fell.turn_overs_a_pass = 1, fell.gave_way = true;
  fell.worst_pull_difference_spanwise = 5;
  stands.name = "stands", stands.worst_use = 2.1, stands.turn_overs_a_pass = 6;
  stands.worst_pull_difference_spanwise = 300;
  REQUIRE(front_of({fell, stands}).size() == 1);
  CHECK(front_of({fell, stands})[0].order == "stands");
  CHECK(clearly_better(stands, fell, true));
  CHECK_FALSE(clearly_better(fell, stands, true));
}
