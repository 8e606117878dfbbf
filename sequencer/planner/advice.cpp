#include "sequencer/planner/advice.hpp"

#include <utility>

#include "sequencer/replay/loose_cloth.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
namespace {

constexpr double degree = 1 / 57.29577951308232;

// Beyond this a linear tie turns rotation into false pull (docs/model.md, section 5).
constexpr double small_turn = 0.5 * degree;

// Cloth counts as lifting off a bearing above this nodal force [N]; below it is the whisper of loose cloth.
constexpr double lifting = 0.05;

// Below these a note would only be noise.
constexpr double worth_saying_fullness = 0.5e-3;
constexpr double worth_saying_sag = 0.25e-3;  // m

// Temperatures of stages and of the approved data that are one and the same [K].
constexpr double same_temperature = 0.5;

// Why a stage cannot be the last one.
StageStop what_stops(const StageVerdict& v) {
  StageStop s;
  s.stage = v.stage;
  s.gave_way = v.buckled;
  s.judged = !v.limits.empty();
  if (s.judged && breaks_history(v, true)) s.over = governing(v.limits);
  if (is_loose(v)) s.loose_zones = v.summary.loose_zones;
  return s;
}

// Where the job could have ended but for loose cloth that is the headline; loose cloth on the way is told where it comes
// tight.
void tell_loose(Advice& a, const std::vector<StageVerdict>& stages, std::optional<int> ceiling) {
  const StageVerdict* loose = nullptr;
  bool could_end = false;
  for (const StageVerdict& v : stages) {
    if (ceiling && v.stage > *ceiling) break;
    const bool broken = breaks_history(v, true);
    const bool judged = !v.limits.empty();
    if (is_loose(v)) loose = &v, could_end = could_end || (judged && !broken);
    if (broken) break;
  }
  if (!loose) return;
  a.loose = LooseCloth{loose->summary.stage, loose->summary.loose_zones, ceiling};
  a.never_tight = !ceiling && could_end;
}

// What the approved data ask for beside what the panel bears.
void tell_approved(Advice& a, const Case& c, const std::vector<StageVerdict>& stages, int ceiling) {
  const std::size_t next = static_cast<std::size_t>(ceiling) + 1;
  if (c.approved_last_stage && *c.approved_last_stage > c.stages[ceiling].temperature + same_temperature) {
    const bool computed = next < stages.size() &&
                          c.stages[next].temperature <= *c.approved_last_stage + same_temperature;
    // Left out for its adhesive, it is not to be added to the case.
    if (next == c.stages.size() && !c.too_hot_for_adhesive.empty()) a.items.push_back(advice::StopAndAsk{});
    else if (computed) a.items.push_back(advice::AskedTooHot{*c.approved_last_stage});
    else a.items.push_back(advice::AskedNotComputed{*c.approved_last_stage});
  } else if (next < c.stages.size() && !c.approved_last_stage) {
    a.items.push_back(advice::LookUpLastStage{ceiling});
  }
}

}  // namespace

Advice advise(const Case& c, const std::vector<StageVerdict>& stages, const std::vector<StageSafety>& safety,
              std::optional<int> ceiling, std::optional<double> setting) {
  Advice a;
  if (c.finish == FinishKind::tautening) {  // whatever was computed says nothing of the coated panel
    a.up_to = Advice::UpTo::coats_tauten;
    a.items = {advice::CoatsTauten{}, advice::StopAndAsk{}};
    return a;
  }
  const int next = ceiling ? *ceiling + 1 : 0;
  tell_loose(a, stages, ceiling);
  const bool lacks_chance = next < static_cast<int>(stages.size()) && !breaks_history(stages[next], true) &&
                            !is_loose(stages[next]) && !safety[static_cast<std::size_t>(next)].safe();
  if (!ceiling) {
    a.up_to = lacks_chance    ? Advice::UpTo::none_is_sure
              : a.never_tight ? Advice::UpTo::none_can_be_last
                              : Advice::UpTo::none_holds;
  } else if (stages[*ceiling].limits.empty()) {
    a.up_to = Advice::UpTo::done;
  } else {
    a.up_to = Advice::UpTo::holds;
    a.closest = governing(stages[*ceiling].limits);
  }
  for (int s = next; s < static_cast<int>(stages.size()); ++s) {
    a.stops.push_back(what_stops(stages[s]));
    a.stops.back().safety = safety[static_cast<std::size_t>(s)];
    if (breaks_history(stages[s], true)) break;
  }
  if (setting) a.items.push_back(advice::SettingBetween{*setting});
  if (a.never_tight) a.items.push_back(advice::StaysLoose{});
  else if (!ceiling && !lacks_chance) a.items.push_back(advice::DoNotIron{});
  if (ceiling) tell_approved(a, c, stages, *ceiling);
  else a.items.push_back(advice::StopAndAsk{});
  if (!c.too_hot_for_adhesive.empty() && c.adhesive_bears)
    a.items.push_back(advice::AdhesiveBearsLess{*c.adhesive_bears, c.too_hot_for_adhesive.front()});
  if (ceiling && next < static_cast<int>(c.stages.size())) a.items.push_back(advice::BracingHelps{});
  return a;
}

std::vector<Note> notes_on(const Case& c, const Panel& p, const std::vector<StageVerdict>& stages,
                           std::optional<int> ceiling) {
  std::vector<Note> notes;
  const int last = ceiling.value_or(0);
  double lift = 0, turn = 0;
  ThicknessLoss sag;
  std::vector<WirePull> wires;
  for (const StageVerdict& v : stages) {
    if (v.buckled) notes.push_back(note::GivesWay{v.stage});
    if (v.stage > last) continue;
    lift = std::max(lift, v.lift), turn = std::max(turn, v.frame_turn);
    if (v.summary.thickness_loss.loss > sag.loss) sag = v.summary.thickness_loss;
    for (const WirePull& w : v.summary.wires) {
      const auto known =
          std::find_if(wires.begin(), wires.end(), [&](const WirePull& x) { return x.brace == w.brace; });
      if (known == wires.end()) wires.push_back(w);
      else *known = {w.brace, std::min(known->least, w.least), std::max(known->most, w.most), w.end};
    }
  }
  if (lift > lifting) notes.push_back(note::LiftsOff{lift});
  if (turn > small_turn) notes.push_back(note::FrameTurns{turn});
  if (p.fullness > worth_saying_fullness) notes.push_back(note::TipFullness{p.fullness});
  if (sag.loss > worth_saying_sag) notes.push_back(note::ThinnerBetweenRibs{sag});
  if (!wires.empty()) notes.push_back(note::WiresPull{std::move(wires)});
  if (c.cloth_goes_on_inboard || c.cloth_goes_on_outboard) notes.push_back(note::WingGoesOn{});
  return notes;
}

}  // namespace evenpull::inline sequencer
