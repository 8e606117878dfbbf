// What a plan is doing just now.
#pragma once

#include "sequencer/planner/plan_part.hpp"

namespace evenpull::viz {

/// "comparing orders": after a bar, without a capital.
const char* part_text(PlanPart part);

}  // namespace evenpull::viz
