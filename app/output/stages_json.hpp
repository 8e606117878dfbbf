// The stages of a plan, as JSON.
#pragma once

#include "app/output/json_number.hpp"
#include "sequencer/plan/plan.hpp"

namespace evenpull {

/// What stands after each stage.
Json stages_json(const Plan& p);

}  // namespace evenpull
