// What a plan is doing just now.
#pragma once

#include "sequencer/planner/plan_part.hpp"

#include <string>

namespace evenpull::viz {

/// "comparing orders": after a bar, without a capital.
const char* part_text(PlanPart part);

/// What follows a plan, in the same manner.
inline constexpr const char* drawing_text = "drawing the sheet, the pictures and the fields";
inline constexpr const char* other_ways_text = "the other ways";

/// `share` done of the whole, after so many seconds: what is left, as a person would say it ("about 2 min left"). Empty
/// while too little is done to tell.
std::string time_left(double share, double seconds);

/// "done in 1 min"
std::string done_text(double seconds);

}  // namespace evenpull::viz
