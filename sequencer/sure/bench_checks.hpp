// What to weigh and tap at the end of a stage: closed forms with the pulls that the plan expects
// (solver/sound/tight_bay.hpp).
#pragma once

#include "sequencer/plan/plan.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// Bays whose free cloth is tight at the end of the stage and large enough for the disc; empty: none is, or the plan holds
/// no picture of that moment.
std::vector<BenchCheck> bench_checks(const Plan& plan, int stage);

/// Of every stage of the plan.
std::vector<std::vector<BenchCheck>> bench_checks_by_stage(const Plan& plan);

}  // namespace evenpull::inline sequencer
