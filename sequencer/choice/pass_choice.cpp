#include "sequencer/choice/pass_choice.hpp"

#include "sequencer/choice/choice.hpp"
#include "sequencer/choice/heat_plan.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "sequencer/replay/tally.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
namespace {

// What a pass over the whole panel must gain in use of limits to be worth its time; judgement.
constexpr double price_of_pass = 0.01;
// In the first stage loose cloth comes up; later ones find it tight already, and fewer light passes are worth a trial.
constexpr int most_light_first = 4;
constexpr int most_light_later = 2;
// Tried where the case does not state how light a light pass is.
constexpr double other_light_doses[] = {0.15, 0.4};
// Full passes at the first stage and at the hotter ones: common practice, no source.
constexpr int usual_full_first = 1;
constexpr int usual_full_later = 2;
// Where no number of passes brings the wanted share to full shrink: what an unsteady iron gets, common practice, no source.
constexpr int full_with_unsteady = 3;
// The coarse mesh reads use about 5 % low (docs/model.md, section 8).
constexpr double reads_low_by = 1.05;

// The order of the trial: the easiest that keeps the sides together.
Order trial_order(const Panel& p) {
  const std::vector<Order> families = order_families(p);
  const auto found =
      std::find_if(families.begin(), families.end(), [](const Order& o) { return o.id.is(Family::halving); });
  return found == families.end() ? families.front() : *found;
}

Tried trial(const Model& m) {
  Tried t;
  t.order = trial_order(m.panel);
  t.result = replay(m, steps_of(m.the_case, m.panel, t.order), {});
  return t;
}

PassTrial tried(Case c, int stage, std::vector<double> doses) {
  c.stages[stage].doses = doses;
  const Model m(c, trial_mesh());
  const OrderResult r = summarise(trial(m), m.panel);
  PassTrial out;
  out.stage = stage;
  out.doses = std::move(doses);
  out.stages_passed = r.stages_passed;
  out.use = r.worst_use;
  out.difference = std::max(r.worst_pull_difference_chordwise, r.worst_pull_difference_spanwise);
  out.slip = r.worst_slip;
  Tally tally;
  tally.use = out.use, tally.difference = out.difference, tally.slip = out.slip,
  tally.unevenness = r.unevenness_final.value_or(0);
  out.cost = cost_of(tally, prices_of(c)) + price_of_pass * static_cast<double>(out.doses.size());
  return out;
}

bool better(const PassTrial& a, const PassTrial& b) {
  return a.stages_passed != b.stages_passed ? a.stages_passed > b.stages_passed : a.cost < b.cost;
}

std::vector<double> doses_of(int light, double light_dose, int full, double full_dose) {
  std::vector<double> doses(static_cast<std::size_t>(light), light_dose);
  doses.insert(doses.end(), static_cast<std::size_t>(full), full_dose);
  return doses;
}

bool can_be_had(const Case& c, int stage, double dose) {
  return dose < c.stages[stage].doses.back() && evenpull::can_be_had(pass_heat(c, c.stages[stage].temperature, dose));
}

bool light_can_be_had(const Case& c, int stage) { return can_be_had(c, stage, c.light_dose); }

RunId trial_id(int stage, const std::vector<double>& doses) {
  RunId id{RunId::Kind::passes};
  id.stage = stage, id.doses = doses;
  return id;
}

void note_unsolved(PassChoice& choice, const TrialRuns& runs) {
  for (RunId& id : runs.unsolved()) choice.unsolved.push_back(std::move(id));
}

// Tries all of `ways` at this stage, adds those that find an equilibrium to the trials, and keeps the best of the stage so
// far.
void try_ways(PassChoice& choice, int stage, const std::vector<std::vector<double>>& ways, const ParallelFor& parallel,
              const BeforeRun& before) {
  TrialRuns runs(ways.size(), before);
  std::vector<PassTrial> results(ways.size());
  parallel(static_cast<int>(ways.size()), [&](int i) {
    runs.run(static_cast<std::size_t>(i), trial_id(stage, ways[i]),
             [&] { results[i] = tried(choice.the_case, stage, ways[i]); });
  });
  for (std::size_t i = 0; i < ways.size(); ++i)
    if (runs.solved(i)) choice.trials.push_back(std::move(results[i]));
  note_unsolved(choice, runs);
  PassTrial* best = nullptr;
  for (PassTrial& t : choice.trials) {
    if (t.stage != stage) continue;
    t.chosen = false;
    if (!best || better(t, *best)) best = &t;
  }
  if (!best) return;
  best->chosen = true;
  choice.the_case.stages[stage].doses = best->doses;
}

bool has_light_passes(const std::vector<double>& doses) { return doses.front() != doses.back(); }

void choose_for(PassChoice& choice, int stage, double& light_dose, const ParallelFor& parallel,
                const BeforeRun& before) {
  const Case& c = choice.the_case;
  const double full_dose = c.stages[stage].doses.back();
  const int full = stage == 0 ? usual_full_first : usual_full_later;
  const int most = !can_be_had(c, stage, light_dose) ? 0 : stage == 0 ? most_light_first : most_light_later;
  std::vector<std::vector<double>> ways;
  for (int light = 0; light <= most; ++light) ways.push_back(doses_of(light, light_dose, full, full_dose));
  try_ways(choice, stage, ways, parallel, before);
  const int light = static_cast<int>(c.stages[stage].doses.size()) - full;
  if (!c.light_dose_open || light <= 0 || !has_light_passes(c.stages[stage].doses)) return;
  ways.clear();
  for (const double dose : other_light_doses)
    if (can_be_had(c, stage, dose)) ways.push_back(doses_of(light, dose, full, full_dose));
  if (!ways.empty()) try_ways(choice, stage, ways, parallel, before);
  light_dose = c.stages[stage].doses.front();
}

void give_enough_full_passes(Case& c, int stage) {
  std::vector<double>& doses = c.stages[stage].doses;
  const double full = doses.back();
  const int least = count_passes(c, c.stages[stage].temperature, {}).least;
  const int needed = least > 0 ? least : full_with_unsteady;
  for (auto have = std::count(doses.begin(), doses.end(), full); have < needed; ++have) doses.push_back(full);
}

// The lowest stage at which the job may end, for all that the coarse mesh can tell: any, where it finds no equilibrium.
int may_end_at(PassChoice& choice, const BeforeRun& before) {
  std::vector<StageVerdict> stages;
  TrialRuns runs(1, before);
  runs.run(0, {RunId::Kind::last_stage}, [&] { stages = trial(Model(choice.the_case, {search_nodes})).result.stages; });
  note_unsolved(choice, runs);
  for (StageVerdict& v : stages)
    for (LimitReading& l : v.limits) l.use *= reads_low_by;
  return stage_ceiling(stages, false).value_or(0);
}

// `trials`: of one stage, at least one.
note::PassGain gain_of(const std::vector<PassTrial>& trials, bool light_can_be_had) {
  using What = note::PassGain::What;
  note::PassGain g;
  g.stage = trials.front().stage;
  const auto plain =
      std::find_if(trials.begin(), trials.end(), [](const PassTrial& t) { return !has_light_passes(t.doses); });
  if (trials.size() == 1 && plain != trials.end()) {
    g.what = light_can_be_had ? What::full_light_unsolved : What::full_light_unlike;
    return g;
  }
  const PassTrial& chosen = *std::find_if(trials.begin(), trials.end(), [](const PassTrial& t) { return t.chosen; });
  g.what = has_light_passes(chosen.doses) ? What::light : What::full_gains_little;
  g.light = static_cast<int>(std::count(chosen.doses.begin(), chosen.doses.end(), chosen.doses.front()));
  g.use = chosen.use;
  if (plain != trials.end()) {
    g.use_without = plain->use;
    g.stage_less_without = chosen.stages_passed > plain->stages_passed;
  }
  return g;
}

}  // namespace

PassChoice choose_passes(const Case& c, const ParallelFor& parallel, const BeforeRun& before) {
  PassChoice out{c, {}};
  double light_dose = c.light_dose;
  for (int s = 0; s < static_cast<int>(c.stages.size()); ++s)
    if (c.stages[s].passes_open) choose_for(out, s, light_dose, parallel, before);
  PassChoice enough = with_enough_full_passes(out.the_case, before);
  out.the_case = std::move(enough.the_case);
  out.unsolved.insert(out.unsolved.end(), enough.unsolved.begin(), enough.unsolved.end());
  return out;
}

PassChoice with_enough_full_passes(const Case& c, const BeforeRun& before) {
  PassChoice out{c, {}};
  int given = static_cast<int>(c.stages.size());
  // More passes meet more of the iron's swing, which may cost a stage: then the one before is the last.
  while (given > 0) {
    const int last = may_end_at(out, before);
    if (last >= given) break;
    for (int s = last; s < given; ++s)
      if (c.stages[s].passes_open) give_enough_full_passes(out.the_case, s);
    given = last;
  }
  return out;
}

note::PassesChosen pass_gains(const Case& c, const std::vector<PassTrial>& trials) {
  note::PassesChosen out;
  for (int s = 0; s < static_cast<int>(c.stages.size()); ++s) {
    std::vector<PassTrial> of_stage;
    for (const PassTrial& t : trials)
      if (t.stage == s) of_stage.push_back(t);
    if (!of_stage.empty()) out.stages.push_back(gain_of(of_stage, light_can_be_had(c, s)));
  }
  return out;
}

}  // namespace evenpull::inline sequencer
