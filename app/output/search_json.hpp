// How the order was searched, for plan.json.
#pragma once

#include "app/output/json_number.hpp"
#include "sequencer/plan/plan.hpp"

namespace evenpull {

/// Stage by stage what was searched and proven, the trade of turn-overs against load, the ways tried to pass over the
/// first stage. Keys: docs/plan-json.md.
Json search_json(const Plan& p);

}  // namespace evenpull
