// The stages of a plan, as JSON.
#pragma once

#include "app/output/json_number.hpp"
#include "sequencer/plan/plan.hpp"

namespace evenpull {

/// What stands after each stage.
Json stages_json(const Plan& p);
/// What was read so far and what it says; null: nothing was read.
Json read_json(const Plan& p);

}  // namespace evenpull
