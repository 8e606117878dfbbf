// What a plan says of its own making: each sentence says what it was given.
#include "tests/support/sample_case.hpp"
#include "tests/support/told.hpp"
#include "viz/words/note_words.hpp"
#include "viz/words/search_words.hpp"
#include "viz/words/wording.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::viz;
using namespace evenpull::sample;
using Catch::Matchers::Contains;

namespace {

Plan of(const Case& c) {
  Plan plan;
  plan.the_case = c;
  return plan;
}

std::string said(const Note& n) { return note_text(of(aileron()), n); }

note::PassGain gain(note::PassGain::What what, int light = 0, double use = 0, std::optional<double> without = {},
                    bool stage_less = false) {
  return {0, what, light, use, without, stage_less};
}

TradeOff point(int turn_overs, double use, double difference) {
  TradeOff t;
  t.turn_overs_a_pass = turn_overs, t.use = use, t.difference = difference;
  return t;
}

}  // namespace

TEST_CASE("temperatures are said in both scales") {
  CHECK_THAT(degrees_both(394.2611), Contains("250 \xC2\xB0"
                                              "F") &&
                                         Contains("121 \xC2\xB0"
                                                  "C"));
  CHECK_THAT(degrees_both(449.8167), Contains("350") && Contains("177"));
}

TEST_CASE("notes on the panel name their numbers in the trade's units") {
  CHECK_THAT(said(note::GivesWay{1}), Contains("gives way at 300"));
  CHECK_THAT(said(note::LiftsOff{0.06}), Contains("0.06 N"));
  CHECK_THAT(said(note::FrameTurns{0.6 / 57.29578}), Contains("0.60 degrees"));
  CHECK_THAT(said(note::TipFullness{0.01}), Contains("1.0 % of fullness"));
  ThicknessLoss l;
  l.loss = 3e-3, l.thickness = 30e-3, l.bay = 1, l.chord_fraction = 0.4;
  CHECK_THAT(said(note::ThinnerBetweenRibs{l}),
             Contains("3.0 mm") && Contains("10 % of its thickness") && Contains("bay 2, 40 % of the chord"));
}

TEST_CASE("what light passes gain is said for each stage that was tried") {
  using What = note::PassGain::What;
  const auto text = [](const note::PassGain& g) { return said(note::PassesChosen{{g}}); };
  CHECK_THAT(text(gain(What::full_light_unlike)), Contains("Passes chosen by trial") && Contains("too unlike"));
  CHECK_THAT(text(gain(What::full_light_unsolved)), Contains("with light ones no equilibrium was found"));
  CHECK_THAT(text(gain(What::full_gains_little, 0, 0.9, 0.9)), Contains("gain too little"));
  CHECK_THAT(text(gain(What::light, 2, 0.7, 0.9)), Contains("2 light passes first") && Contains("0.70, without 0.90"));
  CHECK_THAT(text(gain(What::light, 1, 0.7, 0.9, true)), Contains("1 light pass first") && Contains("a stage less"));
  CHECK_THAT(text(gain(What::light, 1, 0.7)), Contains("without, no equilibrium was found"));
  note::PassGain later = gain(What::full_gains_little);
  later.stage = 1;
  CHECK_THAT(said(note::PassesChosen{{gain(What::full_gains_little), later}}), Contains("250") && Contains("300"));
}

TEST_CASE("steps done that loaded the frame too hard or brought it down are told with what to do") {
  CHECK_THAT(said(note::DoneOverLimit{1.234}), Contains("use 1.23") && Contains("inspect"));
  CHECK_THAT(said(note::DoneGaveWay{}), Contains("gives way in the steps that are done"));
}

TEST_CASE("a zone that must wait is named with those that come before it, and why") {
  Plan plan = of(aileron());
  plan.panel = build_panel(plan.the_case, {});
  CHECK(note_text(plan, note::MustWait{3, {0, 1}, false}) ==
        plan.panel.zones[3].label + " must not be ironed before " + plan.panel.zones[0].label + ", " +
            plan.panel.zones[1].label + ": it would load the frame too hard.");
  CHECK_THAT(note_text(plan, note::MustWait{3, {0}, true}), Contains("nobody knows what it would do"));
}

TEST_CASE("steady working is set beside jumping, and called worse only if it is so by both measures") {
  CHECK_THAT(said(note::KeepsShapeLess{{Family::halving_in_runs, 3}, 27, 78, 29, 32}),
             Contains("in runs of 3 bays") && Contains("27 turn-overs instead of 78") && Contains("29 of 32"));
  CHECK_THAT(said(note::SteadyAgainstJumping{0.9, 80, 0.8, 60}), Contains("0.90") && Contains("80 N/m") &&
                                                                     Contains("0.80") && Contains("60 N/m") &&
                                                                     Contains("jumping is better"));
  CHECK_THAT(said(note::SteadyAgainstJumping{0.7, 80, 0.8, 60}), Contains("not worse by both"));
  CHECK_THAT(said(note::SteadyAgainstJumping{0.731, 80, 0.729, 80.2}), Contains("it makes no difference"));
}

TEST_CASE("notes about other meshes and left-out runs name what they are about") {
  CHECK_THAT(said(note::GaveWayElsewhere{0}), Contains("frame gives way at 250") && Contains("not safe"));
  CHECK_THAT(said(note::UnsolvedElsewhere{0}),
             Contains("no equilibrium was found up to the end of 250") && Contains("not safe"));
  const RunId search{RunId::Kind::search}, rest{RunId::Kind::search_rest};
  CHECK(said(note::LeftOut{{search}}) == "No equilibrium was found in \"the search for an order\": it was left out.");
  CHECK(said(note::LeftOut{{search, rest}}) ==
        "No equilibrium was found in \"the search for an order\", \"the search for the rest of the pass\": they were "
        "left out.");
  Plan plan = of(aileron());
  CHECK_THAT(note_text(plan, note::BarsDecide{1}), Contains("up to 300") && Contains("--accuracy fine"));
  plan.accuracy = Accuracy::fine;
  CHECK(note_text(plan, note::BarsDecide{1}).find("--accuracy") == std::string::npos);
}

TEST_CASE("a run is named by what it was made for") {
  const Case c = aileron();
  RunId run{RunId::Kind::passes};
  run.stage = 1, run.doses = {0.25, 1};
  CHECK_THAT(run_text(c, run), Contains("passes at 300") && Contains("with doses 0.25, 1"));
  CHECK(run_text(c, {RunId::Kind::between_order, {Family::jumping}}) == "half mesh: jumping, sides alternating");
  CHECK(run_text(c, {RunId::Kind::full_order, {Family::jumping}}) == "full mesh: jumping, sides alternating");
  run.kind = RunId::Kind::error_bars, run.fineness = 4, run.zone_parts = 2;
  CHECK(run_text(c, run) == "error bars: mesh 4, zones in 2");
  run.kind = RunId::Kind::bound, run.inner_ribs = RibTie::glued;
  CHECK(run_text(c, run) == "inner ribs glued");
}

TEST_CASE("fewer turn-overs than any order has are told, and that a pass of both sides has one") {
  CHECK_THAT(said(note::FewestTurnOvers{1, 2}), Contains("1 turn-over in every"));
  CHECK_THAT(said(note::FewestTurnOvers{2, 5}), Contains("2 turn-overs") && Contains("those with 5, the fewest"));
  CHECK_THAT(said(note::FewestTurnOvers{0, 1}), Contains("one turn-over at least"));
}

TEST_CASE("the trade of turn-overs is said in one sentence, and not at all when there is none") {
  CHECK(trade_sentence({point(6, 0.80, 70), point(1, 0.85, 240)}) ==
        "6 turn-overs a pass keep the worst pull difference at 0.4 lb/in (70 N/m) and the use at 0.80; 1 turn-over "
        "makes them "
        "1.4 lb/in (240 N/m) and 0.85 (coarse mesh).");
  CHECK(trade_sentence({point(1, 0.5, 10)}).empty());
}

TEST_CASE("what is proven about an order says for which model, and when nothing was left out") {
  Plan plan = of(aileron());
  CHECK(proof_sentence(plan).empty());
  StageSearch s;
  s.model = SearchModel::influences, s.things = 6;
  s.cost = 1, s.least_cost = 0.9, s.use = 0.8, s.least_use = 0.7;
  const auto said = [&] {
    plan.searched = {s};
    return proof_sentence(plan);
  };
  CHECK_THAT(said(), Contains("below 0.70") && Contains("at most 10 % more") && Contains("influences superposed"));
  s.least_cost = 0.1, s.steps = 700;
  CHECK_THAT(said(), Contains("nothing useful is proven"));
  s.exact = true;
  CHECK_THAT(said(), Contains("no order of the 6 pieces costs less"));
}

TEST_CASE("a search with steps that found no equilibrium claims nothing about other orders") {
  Plan plan = of(aileron());
  StageSearch s;
  s.things = 6, s.cost = 1, s.use = 0.8, s.steps = 700, s.unsolved = 3;
  plan.searched = {s};
  CHECK_THAT(proof_sentence(plan), Contains("nothing is proven") && Contains("3 of 700 steps") && Contains("0.80"));
}
