// How well the numbers of the chosen order are known: error bars, bounds, and the hottest setting between the stages.
#pragma once

#include "sequencer/choice/choice.hpp"
#include "sequencer/plan/certificate.hpp"
#include "sequencer/planner/plan_job.hpp"
#include "sequencer/sure/error_bars.hpp"

#include <limits>
#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

struct Studied {
  std::vector<StageVerdict> stages;  ///< with their error bars
  std::vector<StudyLevel> levels{};
  std::vector<BoundRun> bounds{};
  std::vector<RunId> left_out{};  ///< bound runs that found no equilibrium
  /// Stages from which a run behind the error bars gave way, or was not solved.
  int gave_way_from = std::numeric_limits<int>::max(), unsolved_from = std::numeric_limits<int>::max();
};

/// A run of an order elsewhere: with the case and the steps all that is needed to run it anywhere, plain values.
struct StudyJob {
  RunId id;
  MeshOptions mesh;
  double cost = 1;  ///< about, in runs of the order on the plan's mesh without certificates
};

/// The runs behind error bars and bounds of an order, costly ones first.
struct StudyRuns {
  std::vector<Step> steps;  ///< on the plan's mesh; none: nothing was run
  std::vector<StudyJob> jobs;
  std::vector<StudyRun> runs;  ///< of each job
};

/// What is to be run: `runs` are empty still. None for a quick plan.
StudyRuns study_to_run(const PlanJob& job, const Panel& p, std::vector<Step> steps);

/// Runs number i; from any thread. `told`: its number in the meter.
void run_study(const PlanJob& job, const Panel& p, StudyRuns& study, int i, int told);

/// `chosen` was run on the plan's mesh, whose panel is `p`. What `ready` holds of the same steps is not run again.
Studied study_order(const PlanJob& job, const Panel& p, const Tried& chosen, StudyRuns ready);

/// Hottest setting [K] between the ceiling and the next stage that would still pass. `steps`: all of the order as planned.
std::optional<double> find_setting(const PlanJob& job, const Model& full, const Tried& chosen,
                                   const std::vector<StageVerdict>& judged, std::optional<int> ceiling,
                                   std::vector<Step> steps, Dropped& dropped);

}  // namespace evenpull::inline sequencer
