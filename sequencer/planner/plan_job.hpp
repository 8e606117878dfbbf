// What every part of making a plan is given.
#pragma once

#include "sequencer/orders/families.hpp"
#include "sequencer/planner/meter.hpp"
#include "sequencer/planner/planner.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/replay/tally.hpp"
#include "sequencer/replay/trial_runs.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// `options.parallel` is set. `done`: steps worked already, numbered; empty: the job begins.
struct PlanJob {
  const Case& the_case;
  const PlanOptions& options;
  Meter& meter;
  std::vector<Step> done{};

  bool quick() const { return options.accuracy == Accuracy::quick; }
  bool turn_overs_count() const { return !the_case.both_sides_reachable; }
  Prices prices() const { return prices_of(the_case); }
  int last_stage() const { return static_cast<int>(the_case.stages.size()) - 1; }
  /// The steps of an order on any mesh of the panel, going on from what is done.
  std::vector<Step> steps_for(const Panel& p, const Order& o) const;
};

/// Runs that found no equilibrium, and the failure of the first of them.
struct Dropped {
  std::vector<RunId> runs{};
  std::optional<NotConverged> first{};

  void add(const TrialRuns& trials);
  void add(const Dropped& more);
};

/// One replay of many that run side by side: with the case and the mesh of its model all that is needed to run it
/// anywhere, plain values.
struct ReplayJob {
  RunId id;
  std::vector<Step> steps;
  bool kept_whole = false;  ///< snapshots, states and certificates: what the plan's own order needs
};

/// Number i of `results` and `trials`; from any thread. `m`: the model of the job's mesh; `told`: its number in the meter.
void run_job(const PlanJob& job, const Model& m, const ReplayJob& what, std::size_t i, int told, TrialRuns& trials,
             std::vector<std::optional<ReplayResult>>& results);

/// What a job came to: nothing where it found no equilibrium. `m`: the model of the job's mesh.
std::vector<std::optional<ReplayResult>> run_jobs(const PlanJob& job, const Model& m,
                                                  const std::vector<ReplayJob>& jobs, Dropped& dropped);

/// One run by itself; false where it found no equilibrium.
bool one_run(const PlanJob& job, const RunId& id, Dropped& dropped, const std::function<void()>& work);

}  // namespace evenpull::inline sequencer
