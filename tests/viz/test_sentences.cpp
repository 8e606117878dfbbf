// The sentences of the sheet: that their numbers are those given, in both units, and that they can be read.
#include "sequencer/choice/heat_plan.hpp"
#include "sequencer/sure/bench_checks.hpp"
#include "tests/support/sample_plan.hpp"
#include "viz/words/bench_words.hpp"
#include "viz/words/cautions.hpp"
#include "viz/words/check_words.hpp"
#include "viz/words/heat_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/record_words.hpp"
#include "viz/words/sure_words.hpp"
#include "viz/words/trouble.hpp"
#include "viz/words/verdict_words.hpp"
#include "viz/words/wording.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <regex>

using namespace evenpull;
using namespace evenpull::viz;
using Catch::Matchers::Contains;
using Sentences = std::vector<std::string>;

namespace {

// Exact by definition: the international yard and pound (1959) and standard gravity.
constexpr double mm_per_inch = 25.4, newtons_per_pound = 4.4482216152605, grams_per_pound = 453.59237;
constexpr double kelvin_of_300F = 422.0388889;

void add(Sentences& to, const Sentences& from) { to.insert(to.end(), from.begin(), from.end()); }

/// All that the sheet says of a plan in whole sentences.
Sentences all_sentences(const Plan& plan) {
  Sentences all = cautions();
  for (int stage = 0; stage < static_cast<int>(plan.the_case.stages.size()); ++stage) {
    add(all, checks_after_stage(plan, stage));
    add(all, expected_sentences(plan, stage));
    for (const auto& pass : plan.heat.at(static_cast<std::size_t>(stage)).passes)
      all.push_back(hold_words(pass, plan.the_case.iron));
  }
  for (const auto& s : plan.stages) {
    all.push_back(thickness_sentence(s.thickness_loss));
    if (s.buckling_mode) all.push_back(buckling_sentence(*s.buckling_mode));
  }
  for (const auto& list : {assumptions(plan), limits_of_validity(plan), how_computed(plan), bounds_in_words(plan),
                           heat_sentences(plan), sure_sentences(plan)})
    add(all, list);
  all.push_back(sure_words(plan));
  return all;
}

std::vector<Plan> plans() {
  SampleWish bow, none, sheets;
  bow.tip_bow = true;
  none.no_ceiling = true;
  sheets.two_sheets = true;
  Plan quick = sample_plan(), hot = sample_plan();
  quick.accuracy = Accuracy::quick;
  quick.study.clear();
  quick.chances = {};
  hot.the_case.iron.swing = 25 / 1.8;
  hot.heat = plan_heat(hot.the_case, hot.panel);
  hot.ceiling = 2;
  return {sample_plan(), sample_plan(bow), sample_plan(none), sample_plan(sheets), quick, hot};
}

/// Half a unit of the last decimal that is printed.
double half_a_digit(const std::string& number) {
  const auto dot = number.find('.');
  return 0.5 * std::pow(10.0, dot == std::string::npos ? 0.0 : -static_cast<double>(number.size() - dot - 1));
}

/// Wherever `pattern` (a number of the trade's unit, a metric one) is found the two say the same; gives how often.
int check_pairs(const std::string& text, const char* pattern, double metric_per_trade, double offset = 0) {
  int found = 0;
  const std::regex pair(pattern);
  for (std::sregex_iterator i(text.begin(), text.end(), pair), end; i != end; ++i, ++found) {
    INFO(text);
    const std::string trade = (*i)[1], metric = (*i)[2];
    const double rounding = half_a_digit(trade) * metric_per_trade + half_a_digit(metric);
    CHECK(std::abs((std::stod(trade) - offset) * metric_per_trade - std::stod(metric)) <= rounding * (1 + 1e-9));
  }
  return found;
}

int count(const std::string& text, const char* pattern) {
  const std::regex r(pattern);
  return static_cast<int>(std::distance(std::sregex_iterator(text.begin(), text.end(), r), std::sregex_iterator()));
}

}  // namespace

TEST_CASE("every length, pull, temperature, speed and weight in a sentence comes in both units, and they agree",
          "[sentences]") {
  int lengths = 0, pulls = 0, temperatures = 0, speeds = 0, weights = 0;
  for (const Plan& plan : plans())
    for (const auto& s : all_sentences(plan)) {
      INFO(s);
      const int pairs = check_pairs(s, R"(([0-9.]+) in \(([0-9.]+) mm\))", mm_per_inch);
      // A range has the unit behind its second number: "0.10 to 0.14 in (2.5 to 3.6 mm)".
      const int ranges = check_pairs(s, R"(to ([0-9.]+) in \([0-9.]+ to ([0-9.]+) mm\))", mm_per_inch);
      CHECK(ranges == check_pairs(s, R"(([0-9.]+) to [0-9.]+ in \(([0-9.]+) to [0-9.]+ mm\))", mm_per_inch));
      CHECK(pairs + ranges == count(s, R"([0-9] in(?![a-z/²]))"));
      lengths += pairs + ranges;
      const int pull = check_pairs(s, R"(([0-9.]+)(?: ± [0-9.]+)? lb/in \((?:[0-9]+ / )?([0-9.]+) N/m\))",
                                   newtons_per_pound / mm_per_inch * 1000);
      CHECK(pull == count(s, R"([0-9] lb/in)"));
      pulls += pull;
      temperatures += check_pairs(s, R"((?:^|[^± 0-9]) ?([0-9]+) °F \(([0-9]+) °C\))", 1 / 1.8, 32);
      const int speed = check_pairs(s, R"(([0-9.]+) in/s \(([0-9]+) mm/s\))", mm_per_inch);
      CHECK(speed == count(s, R"([0-9] in/s)"));
      speeds += speed;
      const int weight = check_pairs(s, R"(([0-9.]+) lb \(([0-9]+) g\))", grams_per_pound);
      CHECK(weight == count(s, R"([0-9] lb(?!/))"));
      weights += weight;
      CHECK(count(s, R"(± [0-9]+ °F)") == check_pairs(s, R"(± ([0-9]+) °F \(± ([0-9]+) °C\))", 1 / 1.8));
    }
  CHECK(lengths > 100);
  CHECK(pulls > 30);
  CHECK(temperatures > 10);
  CHECK(speeds > 10);
  CHECK(weights > 5);
}

TEST_CASE("no sentence shows minus zero, no number that is none, no gap where a word should be", "[sentences]") {
  for (const Plan& plan : plans())
    for (const auto& s : all_sentences(plan)) {
      INFO(s);
      CHECK(count(s, R"((^|[^e])-0)") == 0);  // "3e-07" is none of them
      for (const char* bad : {"nan", "inf ", "  ", "()", " .", " ,", "{", "}"}) CHECK_THAT(s, !Contains(bad));
      CHECK(count(s, R"((^|[^0-9.])1 (passes|zones|strips|bays|times|steps|meshes)\b)") == 0);
      if (!s.empty()) CHECK((s.back() == '.' || s.back() == ')'));
    }
}

TEST_CASE("a value that is no number is never said", "[sentences]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(number_text(nan, 2), CannotDraw);
  CHECK_THROWS_AS(small_length_both(nan), CannotDraw);
  CHECK_THROWS_AS(use_text(nan, 0), CannotDraw);
  LimitReading r;
  r.limit = Limit::slip;
  CHECK_THROWS_AS(limit_value(r, nan), CannotDraw);
  CHECK(number_text(std::numeric_limits<double>::infinity(), 1) ==
        "none");  // the factor of a frame that nothing buckles
  CHECK(number_text(-1e-9, 2) == "0.00");
  CHECK(number_text(-0.006, 2) == "-0.01");
}

TEST_CASE("one is said in the singular", "[sentences]") {
  CHECK(times_text(0) == "0 times");
  CHECK(times_text(1) == "once");
  CHECK(times_text(7) == "7 times");
  Plan plan = sample_plan();
  plan.ceiling = 0;
  StageHeat& h = plan.heat.at(0);
  h.open = {{0.4}, {}, 0.001, 0};
  const auto of_passes = heat_sentences(plan).at(1);
  CHECK_THAT(of_passes, Contains("40 % of the area done after 1 full pass; ") && Contains("is not reached in 1 pass."));
  h.open = {{0.4, 0.7}, {}, 0.001, 2};
  CHECK_THAT(heat_sentences(plan).at(1), Contains("40 %, 70 % of the area done after 1, 2 full passes; 2 passes for "));
  plan.the_case.stages[0].doses = {1};
  plan.the_case.iron.swing = 40;
  for (const auto& s : heat_sentences(plan)) CHECK_THAT(s, !Contains("1 full passes"));
}

TEST_CASE("a support says what it is, where, in both units, and what it holds", "[sentences]") {
  const Case c = sample_case();
  CHECK(support_words(c, c.in_use[0]) == "hinge on the main spar at 10.6 in (270 mm) (holds x, y, z)");
  CHECK(support_words(c, c.in_use[2]) == "horn on the main spar at 0.0 in (0 mm) (holds turn y)");
  Support s = c.in_use[0];
  s.whole_length = true;
  s.hold = {false, false, false, false, false, false};
  CHECK(support_words(c, s) == "hinge on the main spar over its whole length (holds nothing)");
}

TEST_CASE("the checks after a stage state what the case allows", "[sentences]") {
  Plan plan = sample_plan();
  const auto text = [&](int stage) {
    std::string all;
    for (const auto& s : checks_after_stage(plan, stage)) all += s + "\n";
    return all;
  };
  // Bays of 300 mm and a hundredth of them: 3.0 mm, 0.12 in. The widest piece of the tip rib, 0.7 of 300 mm, by a hundredth: 2.1 mm.
  CHECK_THAT(text(0), Contains("bow between ribs: at most 0.12 in (3.0 mm)") &&
                          Contains("bow between joints: at most 0.08 in (2.1 mm)"));
  // Half a degree over the root chord of 420 mm: 420 tan 0.5 degrees = 3.67 mm.
  CHECK_THAT(text(0), Contains("over 16.5 in (420 mm): at most 0.14 in (3.7 mm)"));
  CHECK_THAT(text(0),
             Contains("About 3 % of the area may still be loose") && Contains("slip at most 0.20 in (5.0 mm)"));
  CHECK_THAT(text(1), Contains("None should be loose"));
  plan.the_case.limits.slip = 0.002;
  CHECK_THAT(text(0), Contains("slip at most 0.08 in (2.0 mm)"));
  plan.the_case.blanket.edge_glued = true;
  CHECK_THAT(text(0), !Contains("slip at") && Contains("Glued edges"));
  plan.stages.clear();
  CHECK_THAT(text(0), !Contains("loose.") && Contains("loose places."));
  CHECK_THAT(checks_after_stage(plan, 0).back(), Contains("stop here"));
}

TEST_CASE("the pull to expect is that of the stage, side by side", "[sentences]") {
  Plan plan = sample_plan();
  const auto two = expected_sentences(plan, 1);
  REQUIRE(two.size() == 3);
  // 600 N/m is 3.43 lb/in; bars of 6 and 11 N/m together 17 N/m, rounded up to 0.1 lb/in.
  CHECK(two[0] == "Top: 3.4 ± 0.1 / 3.3 ± 0.1 lb/in (600 / 570 N/m)");
  CHECK(two[1] == "Bottom: 3.2 ± 0.1 / 3.1 ± 0.1 lb/in (564 / 540 N/m)");
  CHECK(two[2] == "Between the ribs the profile is thinner by up to 0.44 in (11.2 mm): bay 3, 41 % of the chord.");
  for (double& v : plan.stages[1].mean_pull_chord) v = -1e-7;
  CHECK_THAT(expected_sentences(plan, 1)[0], Contains("Top: 0.0 ") && Contains("(0 / "));
  plan.stages[1].thickness_loss.loss = 0.2e-3;
  CHECK(expected_sentences(plan, 1).size() == 2);
}

TEST_CASE("a loss of thickness is said with its place, a trace of it is not", "[sentences]") {
  ThicknessLoss loss{0.0044, 0.0026, 0.0018, 0.044, 2, 0.41};
  CHECK(thickness_sentence(loss) ==
        "Between the ribs the profile is thinner by up to 0.17 in (4.4 mm), 10 % of its thickness there: bay 3, 41 % "
        "of the "
        "chord; top 0.10 in (2.6 mm), bottom 0.07 in (1.8 mm).");
  loss.loss = 0.2e-3;
  CHECK(thickness_sentence(loss) == "Between the ribs the cloth keeps the profile.");
  loss = {};
  CHECK(thickness_sentence(loss) == "Between the ribs the cloth keeps the profile.");
}

TEST_CASE("what the numbers rest on follows the case", "[sentences]") {
  Plan plan = sample_plan();
  const auto text = [&] {
    std::string all;
    for (const auto& s : assumptions(plan)) all += s + "\n";
    return all;
  };
  CHECK_THAT(text(), Contains("free to slide round the trailing edge, friction 0.25.") &&
                         Contains("1.0 % loose along the warp and 1.0 %"));
  CHECK_THAT(text(), Contains("keeps 3.4 lb/in (600 N/m) (warp) and 3.4 lb/in (600 N/m) (fill) after 300 °F."));
  CHECK_THAT(text(), Contains("250 °F (121 °C): passes light (0.25), light (0.25), full (1.00)."));
  CHECK_THAT(text(), Contains("Held while ironed: rest on the main spar at 0.0 in (0 mm) (holds x, y, z, turn x, "
                              "turn z); rest on"));
  plan.the_case.blanket.edge_friction = 0.4;
  plan.the_case.cloth.looseness = {0.02, 0.005};
  plan.the_case.in_use.clear();
  plan.the_case.doubts = {"The ribs stand far apart."};
  CHECK_THAT(text(), Contains("friction 0.40.") && Contains("2.0 % loose along the warp and 0.5 % along the fill") &&
                         Contains("Held in use: none stated.") && Contains("The ribs stand far apart."));
  plan.the_case.blanket.kind = BlanketKind::two_sheets;
  plan.the_case.blanket.inner_ribs = RibTie::glued;
  CHECK_THAT(text(),
             Contains("Two glued sheets") && Contains("glued to the inner ribs.") && !Contains("free to slide"));
}

TEST_CASE("how it was computed names the meshes, and says when there are no bars", "[sentences]") {
  Plan plan = sample_plan();
  const std::string own = std::to_string(plan.solve.nodes);
  const auto words = how_computed(plan);
  REQUIRE(words.size() == 4);
  CHECK_THAT(words[1], Contains("on meshes of 500, " + own + ", 4200 cloth points, and with zones cut in 2.") &&
                           Contains("those of the mesh of 4200; the drawings show the one of " + own));
  CHECK_THAT(words[2], Contains("governing use changes by 2.0 %"));
  CHECK_THAT(words[3], Contains("governing use changes by 3.0 %"));
  plan.study.clear();
  CHECK(how_computed(plan).back() == "No error bars were computed.");
}

TEST_CASE("bounds and defaults are said one by one", "[sentences]") {
  Plan plan = sample_plan();
  CHECK(bounds_in_words(plan).front() ==
        "inner ribs free: worst use 0.54 at 250 °F, 0.87 at 300 °F, 1.36 at 350 °F; unevenness 16 %; slip 0.12 in (3.1 "
        "mm).");
  plan.the_case.defaults_used = {
      {"iron.swing", "20 degF", "estimate"}, {"a.key", "1", ""}, {"iron.mass", "1.2 kg", ""}};
  CHECK(defaults_by_table(plan) == Sentences{"iron: swing 20 degF; mass 1.2 kg", "a: key 1"});
}

TEST_CASE("how to hold the iron: the time, and the speed that comes to the same", "[sentences]") {
  PassHeat pass;
  pass.open.contact = 4;
  const Iron iron{0.2, 0.1, 0.03, 6, 11};  // sole of 200 by 100 mm
  // Lengthwise 200 mm in 4 s: 50 mm/s, 1.97 in/s.
  CHECK(hold_words(pass, iron) == "stay 4.0 s on each spot (or draw the sole lengthwise at 2.0 in/s (50 mm/s)).");
  pass.nose = pass.open;
  pass.nose->contact = 18;
  CHECK_THAT(hold_words(pass, iron), Contains(", over the nose 18 s."));
  pass.way = PassWay::setting;
  pass.sole_temperature = kelvin_of_300F;
  CHECK_THAT(hold_words(pass, iron), Contains("set the sole to 300 °F (149 °C) true and stay 4.0 s"));
  pass.way = PassWay::touch;
  pass.open.contact = 0.5;
  pass.nose.reset();
  // Sideways 100 mm in half a second: 200 mm/s, 7.9 in/s.
  CHECK(hold_words(pass, iron) == "keep moving: draw the sole sideways at 7.9 in/s (200 mm/s), 0.5 s on each spot.");
}

TEST_CASE("passes that are held alike are named together", "[sentences]") {
  Plan plan = sample_plan();
  auto& passes = plan.heat.at(0).passes;
  passes.assign(3, passes.at(0));
  for (auto& p : passes) p.way = PassWay::hold, p.nose.reset(), p.open.contact = 3;
  CHECK_THAT(dwell_words(plan, 0, {1, 2, 3}), Contains("Pass 1, 2 and 3: stay 3.0 s"));
  passes[2].open.contact = 5;
  CHECK_THAT(dwell_words(plan, 0, {1, 2, 3}), Contains("Pass 1 and 2: stay 3.0 s") && Contains(" Pass 3: stay 5.0 s"));
  CHECK_THAT(dwell_words(plan, 0, {2}), Contains("Pass 2: stay 3.0 s") && !Contains("and"));
  CHECK(dwell_words(plan, 9, {1}).empty());
  CHECK_THAT(all_dwell_words(plan),
             Contains("250 °F. Pass 1 and 2: ") && Contains("300 °F. Pass ") && !Contains("350 °F"));
}

TEST_CASE("zones at risk: those above the least, the riskiest first", "[sentences]") {
  Plan plan = sample_plan();
  plan.chances.zones.assign(plan.panel.zones.size(), {});
  plan.chances.zones[4].uneven = {20, 100, 0, 1};
  plan.chances.zones[2].uneven = {30, 100, 0, 1};
  plan.chances.zones[5].slides = {50, 100, 0, 1};
  const auto uneven = risky_zones(plan, false, 0.2), slides = risky_zones(plan, true, 0.2);
  REQUIRE(uneven.size() == 2);
  CHECK(uneven[0].zone == 2);
  CHECK(uneven[1].zone == 4);
  REQUIRE(slides.size() == 1);
  CHECK(slides[0].zone == 5);
  std::string all;
  for (const auto& s : sure_sentences(plan)) all += s + "\n";
  const auto& zones = plan.panel.zones;
  CHECK_THAT(all, Contains("off the mean: " + zones[2].label + " " + zones[4].label + "; at worst 30 %."));
  CHECK_THAT(all, Contains(zones[5].label + "; at worst 50 %."));
}

TEST_CASE("the chance on page one is that of the stage asked for", "[sentences]") {
  Plan plan = sample_plan();
  CHECK_THAT(sure_words(plan), Contains("of 1000 jobs like this one about 6 bend something for good") &&
                                   Contains("97 % (92 % to 99 %) keep within every limit of bow, twist and slip"));
  plan.ceiling = 0;
  CHECK_THAT(sure_words(plan), Contains("fewer than 1 bends something for good"));
  plan.ceiling.reset();
  CHECK(sure_words(plan).empty());
}

TEST_CASE("a chance of damage is said in jobs", "[sentences]") {
  CHECK(damage_text(0) == "of 1000 jobs like this one fewer than 1 bends something for good");
  CHECK(damage_text(0.0012) == "of 1000 jobs like this one about 1 bends something for good");
  CHECK(damage_text(0.0075) == "of 1000 jobs like this one about 8 bend something for good");
  CHECK(damage_text(0.011) == "of 100 jobs like this one about 1 bends something for good");
  CHECK(damage_text(0.37) == "of 100 jobs like this one about 37 bend something for good");
}

TEST_CASE("a stage that holds as stated says what it lacks, with what is wanted", "[sentences]") {
  Plan plan = sample_plan();
  plan.chances.damage[1].fitted = 0.04;
  const StageSafety damage{1, {Lacking::damage}}, shape{1, {Lacking::damage, Lacking::shape}};
  CHECK(lacking_text(plan, damage) ==
        "At 300 °F (149 °C) the values as stated hold, but by these spreads of 100 jobs like this one about 4 bend "
        "something for good (1 of 100 is wanted at most).");
  CHECK_THAT(lacking_text(plan, shape),
             Contains("and only 97 % (92 % to 99 %) keep within") && Contains("(90 % is wanted, at the low end too)"));
  CHECK_THAT(lacking_text(plan, shape), !Contains("poorly known"));
  plan.chances.agreement.scenarios = 8, plan.chances.agreement.decisions = 5;
  CHECK_THAT(lacking_text(plan, shape), Contains("poorly known") && Contains("5 of 8 trials"));
  CHECK_THAT(lacking_text(plan, {1, {Lacking::damage_unknown}}), Contains("not known"));
  CHECK(lacking_text(plan, {1}).empty());
  CHECK(lacking_text(plan, {2, {Lacking::as_stated}}).empty());
}

TEST_CASE("a first look says that it calls nothing safe; no stage says to measure where the values as stated hold",
          "[sentences]") {
  Plan plan = sample_plan();
  CHECK(verdict_heading(plan) == "Hottest safe stage");
  plan.ceiling.reset();
  CHECK_THAT(verdict_note(plan), Contains("Do not iron yet: measure first"));
  plan.nominal.reset();
  CHECK_THAT(verdict_note(plan), Contains("Do not iron this panel"));
  plan.chances = {};
  CHECK_THAT(verdict_heading(plan), Contains("nothing is called safe"));
}

TEST_CASE("the weight and the tap say what was computed for the bays", "[sentences]") {
  const Plan plan = sample_plan();
  const auto& checks = plan.bench_checks.at(1);
  REQUIRE(!checks.empty());
  const auto words = bench_sentences(plan, 1);
  REQUIRE(words.size() == 2);
  double low = 1e9, high = 0, tap_low = 1e9, tap_high = 0;
  for (const auto& c : checks) {
    low = std::min(low, c.sag_low), high = std::max(high, c.sag_high);
    tap_low = std::min(tap_low, c.tap_low), tap_high = std::max(tap_high, c.tap_high);
  }
  std::vector<double> said;
  const std::regex range(R"(\(([0-9.]+) to ([0-9.]+) mm\))");
  for (std::sregex_iterator i(words[0].begin(), words[0].end(), range), end; i != end; ++i)
    for (int k : {1, 2}) said.push_back(std::stod((*i)[k]));
  REQUIRE(!said.empty());
  CHECK(*std::min_element(said.begin(), said.end()) == Approx(1000 * low).margin(0.051));
  CHECK(*std::max_element(said.begin(), said.end()) == Approx(1000 * high).margin(0.051));
  CHECK_THAT(words[0], Contains(number_text(1000 * checks.front().weight, 0) + " g)") && Contains("4.0 in (102 mm)"));
  CHECK_THAT(words[1], Contains("some " + number_text(tap_low, 0) + " to " + number_text(tap_high, 0) + " Hz"));
  Plan without = plan;
  without.snapshots.clear();
  without.stage_end_snapshot.clear();
  without.bench_checks = bench_checks_by_stage(without);
  CHECK(bench_sentences(without, 1).empty());
}

TEST_CASE("zones that a stage leaves loose are told in a whole sentence") {
  Plan plan = sample_plan();
  plan.stages.front().loose_zones = {0, 1};
  std::string all;
  for (const auto& check : viz::checks_after_stage(plan, plan.stages.front().stage)) all += check + "\n";
  CHECK_THAT(all, Catch::Contains("T2 will still be loose after this stage."));
}
