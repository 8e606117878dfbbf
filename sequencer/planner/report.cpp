#include "sequencer/planner/report.hpp"

#include "sequencer/choice/extra_stage.hpp"
#include "sequencer/choice/heat_plan.hpp"
#include "sequencer/choice/trade_offs.hpp"
#include "sequencer/measured/after_readings.hpp"
#include "sequencer/planner/advice.hpp"
#include "sequencer/sure/bench_checks.hpp"
#include "sequencer/sure/error_bars.hpp"
#include "sequencer/sure/frame_range.hpp"
#include "sequencer/sure/safety.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
namespace {

template <class T>
void add(std::vector<Note>& notes, const std::optional<T>& note) {
  if (note) notes.push_back(*note);
}

// Why the first stage that is not safe is not.
void tell_way_there(Plan& p, const PlanJob& job, const PlanRuns& runs, const Tried& chosen,
                    const std::vector<StageVerdict>& judged) {
  const int next = p.ceiling ? *p.ceiling + 1 : 0;
  if (next >= static_cast<int>(judged.size()) || !runs.given.empty() || job.quick()) return;
  if (!breaks_history(judged[next], true)) return;  // loose cloth is no matter of the order
  const WayThere w = way_there(job.the_case, chosen.order, job.done, judged[next], chosen.result.stages[next]);
  if (w.gives_way) return;
  if (w.extra_stage) p.advice.items.push_back(advice::AddStage{w});
  else p.advice.way = w;
}

}  // namespace

std::optional<note::SteadyAgainstJumping> steady_against_jumping(const std::vector<Tried>& ranked, const Panel& p,
                                                                 int last) {
  const auto find = [&](Family family) -> std::optional<OrderResult> {
    for (const Tried& t : ranked)
      if (t.order.id.is(family)) return summarise_up_to(t, p, last);
    return {};
  };
  const auto steady = find(Family::root_to_tip), jumps = find(Family::jumping);
  if (!steady || !jumps || steady->gave_way || jumps->gave_way) return {};
  if (!steady->pull_spread_along_span || !jumps->pull_spread_along_span) return {};
  return note::SteadyAgainstJumping{steady->worst_use, *steady->pull_spread_along_span, jumps->worst_use,
                                    *jumps->pull_spread_along_span};
}

namespace {

// Turn-overs of both up to the stage that the plan goes to: what they were told apart by may have gone further.
note::KeepsShapeLess over_same_stages(note::KeepsShapeLess n, const Plan& p, const PlanRuns& runs, int best, int last) {
  for (const std::vector<Tried>* runs_on : {&runs.ranking.met, &runs.ranking.ranked, &runs.ranking.set_aside})
    for (const Tried& t : *runs_on)
      if (t.order.id == n.order) n.turn_overs = turn_overs(p.panel, t.result.planned, last);
  n.of_the_plan = turn_overs(p.panel, runs.full[static_cast<std::size_t>(best)].result.planned, last);
  return n;
}

void list_orders(Plan& p, const PlanJob& job, const PlanRuns& runs, int best, int last) {
  for (std::size_t i = 0; i < runs.full.size(); ++i) {
    p.orders.push_back(summarise_up_to(runs.full[i], p.panel, last));
    p.orders.back().chosen = static_cast<int>(i) == best;
  }
  // Each by the finest mesh that it was run on.
  const auto is_listed = [&](const OrderId& id) {
    return std::any_of(p.orders.begin(), p.orders.end(), [&](const OrderResult& o) { return o.order == id; });
  };
  const std::vector<Tried>& ranked = runs.ranking.ranked;
  for (const std::vector<Tried>* runs_on : {&runs.ranking.met, &ranked, &runs.ranking.set_aside})
    for (const Tried& t : *runs_on)
      if (!is_listed(t.order.id)) p.orders.push_back(summarise_up_to(t, p.panel, last));
  add(p.notes, steady_against_jumping(ranked, p.panel, last));
  if (ranked.empty() || job.quick()) return;
  const OrderId& first = ranked[best_of(summaries(ranked, p.panel), job.prices())].order.id;
  const auto& passed_over = runs.ranking.passed_over;
  if (passed_over && !(passed_over->order == runs.full[best].order.id)) {
    if (p.ceiling) p.notes.push_back(over_same_stages(*passed_over, p, runs, best, last));
  } else if (!(first == runs.full[best].order.id)) p.notes.push_back(note::CoarseRankedOther{first});
}

// How well the models of the search foretold the orders that were run in full.
std::vector<StageSearch> searched_stages(const OrderFinder& finder, const std::vector<Tried>& full) {
  std::vector<StageSearch> searched = finder.stages();
  for (const Tried& t : full) {
    const std::vector<ModelError> errors = finder.foretell(t.order, t.result.steps, t.result.moments);
    for (std::size_t s = 0; s < errors.size(); ++s) {
      ModelError& worst = searched[s].error;
      worst.stage = errors[s].stage;
      worst.use = std::max(worst.use, errors[s].use);
      worst.difference = std::max(worst.difference, errors[s].difference);
      worst.slip = std::max(worst.slip, errors[s].slip);
    }
  }
  return searched;
}

// How good the order is, what turn-overs cost, what must wait.
void tell_search(Plan& p, const PlanJob& job, const PlanRuns& runs, int best) {
  const Ranking& r = runs.ranking;
  p.pass_trials = runs.passes.trials;
  if (r.finder) p.searched = searched_stages(*r.finder, runs.full);
  if (!r.ranked.empty() && job.turn_overs_count() && job.done.empty()) {
    std::vector<OrderResult> all;
    for (const std::vector<Tried>* compared : {&r.compared(), &r.set_aside})
      for (const Tried& t : *compared) {
        all.push_back(summarise_up_to(t, p.panel, p.ceiling.value_or(0)));
        all.back().chosen = t.order.id == runs.full[best].order.id;
      }
    p.trade_offs = trade_offs_of(all);
  }
  add(p.notes, r.steps_done);
  add(p.notes, r.turn_overs);
  if (note::PassesChosen passes = pass_gains(job.the_case, p.pass_trials); !passes.stages.empty())
    p.notes.push_back(std::move(passes));
  if (is_a_trade(p.trade_offs)) p.notes.push_back(note::TurnOversAgainstLoad{});
  if (!p.searched.empty()) p.notes.push_back(note::HowGoodTheOrder{});
  p.notes.insert(p.notes.end(), r.waits.begin(), r.waits.end());
}

// What it may cost that nobody said how the frame is joined, at the hottest stage that both bounds reached.
std::optional<note::JointsNotStated> joints_not_stated(const Case& c, const std::vector<BoundRun>& bounds) {
  if (!any_joint_unstated(c)) return {};
  note::JointsNotStated out;
  std::size_t stages = 0;
  for (const BoundRun& b : bounds)
    if (b.joints) stages = std::max(stages, b.worst_use.size()), out.computed = true, out.stage = b.first_stage;
  if (stages == 0) out.computed = false;
  else out.stage += static_cast<int>(stages) - 1;
  for (const BoundRun& b : bounds)
    if (b.joints && b.worst_use.size() == stages && stages > 0)
      (*b.joints == JointEnd::softest ? out.softest : out.stiffest) = b.worst_use.back();
  return out;
}

// Where error bars decide, and what the runs behind them met.
void tell_bars(Plan& p, const Studied& studied) {
  const std::optional<int> without_bars = stage_ceiling(studied.stages, false);
  // Where it is the joints that decide, what stops the stage says so.
  std::vector<StageVerdict> as_usual = studied.stages;
  for (StageVerdict& v : as_usual)
    for (LimitReading& l : v.limits) l.use_of_worse_joints = 0;
  if (without_bars != stage_ceiling(as_usual, true) && without_bars) p.notes.push_back(note::BarsDecide{*without_bars});
  for (const StageVerdict& v : studied.stages) {
    if (!gave_way_in_study(v)) continue;
    if (v.stage >= studied.gave_way_from) p.notes.push_back(note::GaveWayElsewhere{v.stage});
    if (v.stage >= studied.unsolved_from) p.notes.push_back(note::UnsolvedElsewhere{v.stage});
  }
}

void list_stages(Plan& p, const std::vector<StageVerdict>& judged) {
  for (const StageVerdict& v : judged) p.stages.push_back(v.summary);
}

void list_limits(Plan& p, const std::vector<StageVerdict>& judged) {
  for (std::size_t i = 0; i < judged.size(); ++i) {
    const StageVerdict& v = judged[i];
    p.limits.insert(p.limits.end(), v.limits.begin(), v.limits.end());
    p.stages[i].worst_use = worst_use_up_to(judged, v.stage, true);
    p.stages[i].passes = p.ceiling && v.stage <= *p.ceiling;
  }
}

void tell_how_solved(Plan& p, const PlanJob& job, const StageVerdict& last) {
  if (job.quick() || last.limits.empty()) return;
  p.solve.mesh_change = mesh_change(last);
  p.solve.zone_change = zone_change(last);
}

}  // namespace

Plan report(const PlanJob& job, const Model& full, PlanRuns runs) {
  Plan p;
  p.the_case = job.the_case;
  p.panel = full.panel;
  p.accuracy = job.options.accuracy;
  p.replayed = !runs.given.empty();
  const int best = static_cast<int>(runs.best);
  const Studied studied = std::move(runs.verdict.studied);
  std::vector<StageVerdict> judged = studied.stages;
  p.nominal = runs.verdict.nominal;
  Tried& chosen = runs.full[best];
  p.order = chosen.order.id;
  p.chances = std::move(runs.verdict.chances);
  OutcomeModel outcomes = std::move(runs.verdict.outcomes);
  if (!job.quick() && job.options.outcomes) job.options.outcomes(outcomes, chosen.result.planned);
  p.safety = std::move(runs.verdict.safety);
  // What was expected at the ends of the stages: of it the readings are a share.
  p.snapshots = std::move(chosen.result.snapshots);
  p.stage_end_snapshot = std::move(chosen.result.stage_end_snapshot);
  list_stages(p, judged);
  p.bench_checks = bench_checks_by_stage(p);
  if (!job.options.measured.empty()) {
    AfterReadings after =
        after_readings(outcomes, job.the_case, p.panel.bays, job.options.measured, {p.bench_checks, p.chances.shapes});
    if (after.told.used) {
      judged = with_readings(std::move(judged), outcomes, after.model);
      p.nominal = stage_ceiling(judged, true);
      p.safety = safety_with_readings(judged, after, job.the_case);
      outcomes = std::move(after.model);
    }
    p.read = std::move(after.told);
  }
  const bool no_data = job.the_case.finish == FinishKind::tautening;
  if (no_data)
    for (StageSafety& s : p.safety) s.lacking.push_back(Lacking::coats);
  p.ceiling = hottest_safe(p.safety);
  list_limits(p, judged);
  Dropped dropped = runs.ranking.dropped;
  dropped.runs.insert(dropped.runs.begin(), runs.passes.unsolved.begin(), runs.passes.unsolved.end());
  dropped.runs.insert(dropped.runs.end(), studied.left_out.begin(), studied.left_out.end());
  // Where chances decide no setting between the stages is told: they were not studied for it; beside NONE no number stands.
  if (p.ceiling && p.ceiling == p.nominal && !p.read.used)
    p.setting = find_setting(job, full, chosen, judged, p.ceiling,
                             runs.given.empty() ? job.steps_for(full.panel, chosen.order) : runs.given, dropped);
  p.advice = advise(job.the_case, judged, p.safety, p.ceiling, p.setting);
  if (!no_data && p.ceiling != p.nominal && !p.chances.weights.empty())
    p.advice.items.insert(p.advice.items.begin(), advice::MeasureFirst{p.chances.weights.front().input});
  p.notes = notes_on(job.the_case, p.panel, judged, p.ceiling);
  if (!no_data) tell_way_there(p, job, runs, chosen, judged);
  list_orders(p, job, runs, best, p.ceiling.value_or(0));
  tell_search(p, job, runs, best);
  tell_bars(p, studied);
  p.bounds = studied.bounds;
  add(p.notes, joints_not_stated(job.the_case, p.bounds));
  if (p.chances.unsolved) p.notes.push_back(note::ChancesUnsolved{});
  if (!dropped.runs.empty()) p.notes.push_back(note::LeftOut{dropped.runs});
  p.solve = chosen.result.solve;
  p.certificates = std::move(chosen.result.certificates);
  p.study = studied.levels;
  tell_how_solved(p, job, judged[p.ceiling.value_or(0)]);
  p.steps = std::move(chosen.result.steps);
  p.heat = plan_heat(job.the_case, p.panel);
  if (p.ceiling) p.times = stage_times(job.the_case, p.panel, p.steps, p.heat, *p.ceiling);
  if (!no_data) p.windows = find_windows(outcomes, job.the_case, p.panel.bays, p.ceiling, p.bench_checks);
  return p;
}

}  // namespace evenpull::inline sequencer
