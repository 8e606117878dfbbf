// The stages of a plan, as JSON.
#pragma once

#include "app/output/json_number.hpp"
#include "sequencer/plan/plan.hpp"

namespace evenpull {

/// What stands after each stage.
Json stages_json(const Plan& p);

inline constexpr double degrees_per_radian = 57.29577951308232;

/// Of a stage, as the case states it.
double stage_degF(const Plan& p, int stage);

/// "top", "bottom".
const char* side_name(Side s);

/// null where the frame gave way before there was such a number.
Json unless(bool gave_way, double value, const char* name);

}  // namespace evenpull
