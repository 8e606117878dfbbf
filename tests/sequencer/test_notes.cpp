// When a plan has something to say: each note above what is worth saying, and none below.
#include "sequencer/choice/mid_work.hpp"
#include "sequencer/choice/pass_choice.hpp"
#include "sequencer/planner/advice.hpp"
#include "sequencer/planner/report.hpp"
#include "sequencer/replay/replay.hpp"
#include "tests/support/sample_case.hpp"
#include "tests/support/told.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;
using sample::verdict;

namespace {

PassTrial trial(std::vector<double> doses, int stages, double use, bool chosen) {
  PassTrial t;
  t.doses = std::move(doses), t.stages_passed = stages, t.use = use, t.chosen = chosen;
  return t;
}

Tried ran(Family family, const Panel& p, double use, double spread) {
  Tried t;
  t.order.id.family = family;
  Step s;
  t.result.planned = t.result.steps = {s};
  number_steps(p, t.result.planned);
  t.result.stages = {verdict(0, use)};
  t.result.stages[0].spread_along_span = spread;
  return t;
}

}  // namespace

TEST_CASE("notes on the model are made above what is worth saying, and not below") {
  Panel p;
  StageVerdict quiet = verdict(0, 0.5);
  quiet.lift = 0.04, quiet.frame_turn = 0.4 / 57.3;
  quiet.summary.thickness_loss.loss = 0.2e-3;
  CHECK(notes_on({}, p, {quiet}, 0).empty());
  StageVerdict loud = quiet;
  loud.lift = 0.06, loud.frame_turn = 0.6 / 57.3;
  loud.summary.thickness_loss.loss = 3e-3;
  p.fullness = 0.01;
  const std::vector<Note> notes = notes_on({}, p, {loud}, 0);
  REQUIRE(notes.size() == 4);
  CHECK(std::get<note::LiftsOff>(notes[0]).force == 0.06);
  CHECK(std::get<note::FrameTurns>(notes[1]).angle == loud.frame_turn);
  CHECK(std::get<note::TipFullness>(notes[2]).share == 0.01);
  CHECK(std::get<note::ThinnerBetweenRibs>(notes[3]).loss.loss == 3e-3);
  // Only up to the safe stage; that the frame gives way is said of any.
  StageVerdict hotter = loud;
  hotter.stage = 1, hotter.buckled = true;
  p.fullness = 0;
  const std::vector<Note> of_both = notes_on({}, p, {quiet, hotter}, 0);
  REQUIRE(of_both.size() == 1);
  CHECK(std::get<note::GivesWay>(of_both[0]).stage == 1);
}

TEST_CASE("what wires pull is told over all stages up to the safe one, and that the wing goes on") {
  StageVerdict cool = verdict(0, 0.5), hot = verdict(1, 0.6), beyond = verdict(2, 2);
  cool.summary.wires = {{1, 5, 40, 30}};
  hot.summary.wires = {{1, 0, 25, 20}};
  beyond.summary.wires = {{1, 0, 900, 900}};
  Case c;
  c.cloth_goes_on_outboard = true;
  const std::vector<Note> notes = notes_on(c, Panel{}, {cool, hot, beyond}, 1);
  REQUIRE(notes.size() == 2);
  const WirePull w = std::get<note::WiresPull>(notes[0]).wires.front();
  CHECK(w.brace == 1);
  CHECK(w.least == 0);
  CHECK(w.most == 40);
  CHECK(w.end == 20);
  CHECK(std::holds_alternative<note::WingGoesOn>(notes[1]));
}

TEST_CASE("what light passes gain is worked out for each stage that was tried") {
  using What = note::PassGain::What;
  const Case c = sample::aileron();
  CHECK(pass_gains(c, {}).stages.empty());
  const auto gain = [&](const Case& of, const std::vector<PassTrial>& trials) {
    return pass_gains(of, trials).stages.at(0);
  };
  Case unlike = c;
  unlike.light_dose = 1;  // no lighter than a full one
  CHECK(gain(unlike, {trial({1}, 2, 0.9, true)}).what == What::full_light_unlike);
  CHECK(gain(c, {trial({1}, 2, 0.9, true)}).what == What::full_light_unsolved);
  CHECK(gain(c, {trial({1}, 2, 0.9, true), trial({0.25, 1}, 2, 0.895, false)}).what == What::full_gains_little);
  const note::PassGain light = gain(c, {trial({1}, 2, 0.9, false), trial({0.25, 0.25, 1}, 2, 0.7, true)});
  CHECK(light.what == What::light);
  CHECK(light.light == 2);
  CHECK(light.use == 0.7);
  CHECK(light.use_without == 0.9);
  CHECK_FALSE(light.stage_less_without);
  CHECK(gain(c, {trial({1}, 1, 0.9, false), trial({0.25, 1}, 2, 0.7, true)}).stage_less_without);
  PassTrial later = trial({1, 1}, 2, 0.9, true);
  later.stage = 1;
  CHECK(pass_gains(c, {trial({1}, 2, 0.9, true), later}).stages.at(1).stage == 1);
}

TEST_CASE("steps done are spoken of only where they have loaded the frame too hard or brought it down") {
  RestFound found;
  found.use_so_far = 0.99;
  CHECK_FALSE(note_on_done(found).has_value());
  found.use_so_far = 1.234;
  CHECK(std::get<note::DoneOverLimit>(note_on_done(found).value()).use == 1.234);
  found.stands = false;
  CHECK(std::holds_alternative<note::DoneGaveWay>(note_on_done(found).value()));
}

TEST_CASE("a zone that must wait comes with those before it, and worked next it would load the frame harder") {
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
  for (const note::MustWait& w : found.waits) {
    INFO(w.zone);
    REQUIRE_FALSE(w.before.empty());
    CHECK(w.before.front() == found.rest.front());
    CHECK(worst({w.zone}) > best);
  }
}

TEST_CASE("steady working is set beside jumping only where both were run to their end") {
  const Panel p = build_panel(sample::aileron(3, 0.9, 0.3), {120});
  const Tried steady = ran(Family::root_to_tip, p, 0.9, 80), jumps = ran(Family::jumping, p, 0.8, 60);
  const auto n = steady_against_jumping({steady, jumps}, p, 0);
  REQUIRE(n.has_value());
  CHECK(n->steady_use == 0.9);
  CHECK(n->steady_spread == 80);
  CHECK(n->jumping_use == 0.8);
  CHECK(n->jumping_spread == 60);
  CHECK_FALSE(steady_against_jumping({steady}, p, 0).has_value());
  Tried mirror = jumps;
  mirror.order.id.mirrored = {Mirror::ends};
  CHECK_FALSE(steady_against_jumping({steady, mirror}, p, 0).has_value());
  Tried fell = jumps;
  fell.result.stages[0].buckled = true;
  CHECK_FALSE(steady_against_jumping({steady, fell}, p, 0).has_value());
}
