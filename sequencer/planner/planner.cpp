#include "sequencer/planner/planner.hpp"

#include "sequencer/choice/choice.hpp"
#include "sequencer/choice/mid_work.hpp"
#include "sequencer/choice/pass_choice.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/planner/finalists.hpp"
#include "sequencer/planner/report.hpp"
#include "sequencer/planner/surer_orders.hpp"

namespace evenpull::inline sequencer {
namespace {

// Of an order that somebody chose, run whole: what a plan of it is made from.
Tried run_given(const Model& full, const std::vector<Step>& steps, std::function<void(int, int)> progress) {
  ReplayOptions run;
  run.snapshots = run.states = run.certified = true;
  run.progress = std::move(progress);
  Order as_given;
  as_given.id.family = Family::as_given;
  return {std::move(as_given), replay(full, steps, run), OrderModel::full};
}

PlanOptions with_parallel(PlanOptions options) {
  if (!options.parallel) options.parallel = one_by_one;
  return options;
}

// Orders are ranked, the best run in full, and what comes of it reported.
Plan plan_of(const PlanJob& job, const Model& full, PassChoice passes) {
  PlanRuns runs;
  runs.passes = std::move(passes);
  runs.ranking = rank_orders(job);
  StudyRuns study;
  Finalists finalists = run_finalists(job, full, runs.ranking, study);
  runs.full = std::move(finalists.full), runs.best = finalists.best;
  runs.verdict = judge_order(job, full.panel, runs.full[runs.best], std::move(study));
  try_surer_orders(job, full, runs);
  return report(job, full, std::move(runs));
}

}  // namespace

Plan make_plan(const Case& c, const PlanOptions& given) {
  const PlanOptions options = with_parallel(given);
  Meter meter(options.progress, options.accuracy);
  meter.begin(PlanPart::passes, 1);
  PassChoice passes = options.accuracy == Accuracy::quick ? with_enough_full_passes(c, options.before_run)
                                                          : choose_passes(c, options.parallel, options.before_run);
  const Case with_passes = passes.the_case;
  return plan_of({with_passes, options, meter}, Model(with_passes, plan_mesh(with_passes, options.accuracy)),
                 std::move(passes));
}

Plan make_plan_from(const Case& c, const std::vector<OrderStep>& done, const PlanOptions& given) {
  const PlanOptions options = with_parallel(given);
  const Model full(c, plan_mesh(c, options.accuracy));
  std::vector<Step> steps = steps_from(c, full.panel, done);
  check_goes_on(c, full.panel, steps);
  number_steps(full.panel, steps);
  Meter meter(options.progress, options.accuracy);
  return plan_of({c, options, meter, std::move(steps)}, full, {});
}

Plan replay_order(const Case& c, const std::vector<OrderStep>& order, const PlanOptions& given) {
  const PlanOptions options = with_parallel(given);
  const Model full(c, plan_mesh(c, options.accuracy));
  PlanRuns runs;
  runs.given = steps_from(c, full.panel, order);
  number_steps(full.panel, runs.given);
  Meter meter(options.progress, options.accuracy);
  meter.begin(PlanPart::given_order, 1);
  runs.full.push_back(run_given(full, runs.given, meter.job(0)));
  const PlanJob job{c, options, meter};
  runs.verdict = judge_order(job, full.panel, runs.full.front(), {});
  return report(job, full, std::move(runs));
}

Plan run_beside(const Case& c, const std::vector<OrderStep>& order, const PlanOptions& options) {
  const Model full(c, plan_mesh(c, options.accuracy));
  std::vector<Step> steps = steps_from(c, full.panel, order);
  number_steps(full.panel, steps);
  Meter meter(options.progress, options.accuracy);
  meter.begin(PlanPart::given_order, 1);
  Tried run = run_given(full, steps, meter.job(0));
  Plan p;
  p.the_case = c;
  p.panel = full.panel;
  p.accuracy = options.accuracy;
  p.replayed = true;
  p.order = run.order.id;
  p.orders.push_back(summarise_up_to(run, p.panel, steps.back().stage));
  p.orders.back().chosen = true;
  for (const StageVerdict& v : run.result.stages) p.stages.push_back(v.summary);
  p.snapshots = std::move(run.result.snapshots);
  p.stage_end_snapshot = std::move(run.result.stage_end_snapshot);
  p.solve = run.result.solve;
  p.certificates = std::move(run.result.certificates);
  p.steps = std::move(run.result.steps);
  return p;
}

}  // namespace evenpull::inline sequencer
