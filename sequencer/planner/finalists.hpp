// The best of the ranking, run in full.
#pragma once

#include "sequencer/planner/ranking.hpp"
#include "sequencer/planner/study.hpp"

#include <cstddef>
#include <vector>

namespace evenpull::inline sequencer {

/// Which of the ranking go on, in the order of their ease: the best and, unless it has to be quick, the usual orders and the
/// one with the least use where a stage hangs by a hair. `p`: any mesh of the panel.
std::vector<int> choose_finalists(const PlanJob& job, const Panel& p, const std::vector<Tried>& ranked);

struct Finalists {
  std::vector<Tried> full;  ///< in the order of their ease
  /// By `full`: it holds the most stages; of those that hold as many it is the best by score that keeps the shape.
  std::size_t best = 0;
};

/// The finalists meet on a mesh between the coarse one and that of the plan, `full`; the best of them is run on the latter,
/// and another only where a stage hangs on it. A quick plan takes the best as ranked; on a small mesh all are run in full.
/// Those that find no equilibrium leave the ranking; if none is left the next best are run. Throws NotConverged where the
/// ranking is used up. Beside the best the runs behind its error bars are made, so that no processor waits for it: `study`.
Finalists run_finalists(const PlanJob& job, const Model& full, Ranking& ranking, StudyRuns& study);

/// One order in full, and beside it the runs behind its error bars. Empty where it finds no equilibrium: it leaves the ranking.
std::vector<Tried> run_with_study(const PlanJob& job, const Model& full, const Order& order, Ranking& ranking,
                                  StudyRuns& study);

/// How many stages an order that met others on the half mesh may hold in full.
int may_hold_in_full(const Tried& met);

}  // namespace evenpull::inline sequencer
