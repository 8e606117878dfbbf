// What is said of a folded trailing edge whose legs go wavy.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull::viz {

/// Where and how deep, and that it stays: for the hottest safe stage, or where none is safe for the first one judged.
/// Empty: no waves there, or they are not told.
std::string waves_text(const Plan& plan);

}  // namespace evenpull::viz
