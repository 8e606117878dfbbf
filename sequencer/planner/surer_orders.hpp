// Where only chances stand against a stage, another order may be surer of it: never past them for fewer turn-overs.
#pragma once

#include "sequencer/planner/report.hpp"

namespace evenpull::inline sequencer {

/// Orders that met the best one on the half mesh are told apart by the same scenarios as it, all of them; what is surer of the
/// stage that only chances stand against is run in full, two at most. Takes its place where its verdict is hotter.
void try_surer_orders(const PlanJob& job, const Model& full, PlanRuns& runs);

}  // namespace evenpull::inline sequencer
