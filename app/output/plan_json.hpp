// The plan as a JSON document (docs/plan-json.md): same bytes for the same plan.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull {

constexpr int plan_json_format = 1;

/// Throws std::logic_error if a result is not finite: such a plan must not leave the program.
std::string plan_document(const Plan& plan, const std::string& version);

}  // namespace evenpull
