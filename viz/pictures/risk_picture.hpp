// The picture of the risk that a zone ends up pulling unevenly or that its cloth slides.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull::viz {

/// Nothing is written and false given when the plan holds no chances.
bool write_risk_picture(const Plan& plan, const std::string& path);

}  // namespace evenpull::viz
