// How well the numbers of the chosen order are known: error bars, bounds, and the hottest setting between the stages.
#pragma once

#include "sequencer/choice/choice.hpp"
#include "sequencer/plan/certificate.hpp"
#include "sequencer/planner/plan_job.hpp"

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

/// `chosen` was run on the plan's mesh, whose panel is `p`. A quick plan has no error bars.
Studied study_order(const PlanJob& job, const Panel& p, const Tried& chosen);

/// Hottest setting [K] between the ceiling and the next stage that would still pass. `steps`: all of the order as planned.
std::optional<double> find_setting(const PlanJob& job, const Model& full, const Tried& chosen,
                                   const std::vector<StageVerdict>& judged, std::optional<int> ceiling,
                                   std::vector<Step> steps, Dropped& dropped);

}  // namespace evenpull::inline sequencer
