// What is said first and always.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Printed on the first page, always.
std::vector<std::string> cautions();
/// What to mark and read before the first stage, which later checks lean on; empty: nothing is to be ironed, or the work has begun.
std::vector<std::string> preparations(const Plan& plan);

}  // namespace evenpull::viz
