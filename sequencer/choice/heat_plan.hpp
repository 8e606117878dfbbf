// What the iron has to do at each stage, and how many passes it takes: docs/model.md, section 4.
#pragma once

#include "sequencer/plan/stage_heat.hpp"
#include "solver/geometry/panel.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// Share of the area done after each number of full passes of this stage, by quasi-random sampling (Sobol). Full shrink
/// is what the stage brings unpulled cloth over an open bay to with the longest dwell, over a nose as well.
PassCount count_passes(const Case& c, double stage_temperature, const Backing& backing, int samples = 1024);

/// All stages.
std::vector<StageHeat> plan_heat(const Case& c, const Panel& p);

}  // namespace evenpull::inline sequencer
