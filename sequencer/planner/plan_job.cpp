#include "sequencer/planner/plan_job.hpp"

#include "sequencer/choice/mid_work.hpp"
#include "sequencer/sure/kept_runs.hpp"

namespace evenpull::inline sequencer {

std::vector<Step> PlanJob::steps_for(const Panel& p, const Order& o) const {
  return done.empty() ? steps_of(the_case, p, o) : go_on(the_case, p, done, o);
}

void Dropped::add(const TrialRuns& trials) {
  for (RunId& id : trials.unsolved()) runs.push_back(std::move(id));
  if (!first) first = trials.first_failure();
}

void Dropped::add(const Dropped& more) {
  runs.insert(runs.end(), more.runs.begin(), more.runs.end());
  if (!first) first = more.first;
}

void run_job(const PlanJob& job, const Model& m, const ReplayJob& what, std::size_t i, int told, TrialRuns& trials,
             std::vector<std::optional<ReplayResult>>& results) {
  ReplayOptions run;
  run.snapshots = run.states = run.certified = what.kept_whole;
  run.progress = job.meter.job(told);
  RunJob named;
  named.mesh = {m.panel.rows, m.panel.columns, m.panel.strips};
  named.steps = what.steps;
  named.kept_whole = what.kept_whole;
  trials.run(i, what.id, [&] {
    results[i] = known_or_run<ReplayResult>(job.options.kept, named, [&] { return replay(m, what.steps, run); });
  });
  run.progress(1, 1);
}

std::vector<std::optional<ReplayResult>> run_jobs(const PlanJob& job, const Model& m,
                                                  const std::vector<ReplayJob>& jobs, Dropped& dropped) {
  std::vector<std::optional<ReplayResult>> results(jobs.size());
  TrialRuns trials(jobs.size(), job.options.before_run);
  job.options.parallel(static_cast<int>(jobs.size()),
                       [&](int i) { run_job(job, m, jobs[i], static_cast<std::size_t>(i), i, trials, results); });
  dropped.add(trials);
  return results;
}

bool one_run(const PlanJob& job, const RunId& id, Dropped& dropped, const std::function<void()>& work) {
  TrialRuns trials(1, job.options.before_run);
  trials.run(0, id, work);
  dropped.add(trials);
  return trials.solved(0);
}

}  // namespace evenpull::inline sequencer
