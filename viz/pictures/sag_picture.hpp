// One picture of how far the cloth lies inside the profile between the ribs after a stage.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull::viz {

void write_sag_picture(const Plan& plan, int stage, const std::string& path);

}  // namespace evenpull::viz
