// How values of a plan become numbers and words of a JSON document.
#pragma once

#include "sequencer/plan/plan.hpp"

namespace evenpull {

// What SI values are multiplied by.
inline constexpr double mm = 1000;
inline constexpr double percent = 100;
inline constexpr double degrees_per_radian = 57.29577951308232;

/// Of a stage, as the case states it.
double stage_degF(const Plan& p, int stage);

/// "top", "bottom".
const char* side_name(Side s);

}  // namespace evenpull
