// One picture of the frame: how much of its stress limit each member uses, and its shape, exaggerated.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull::viz {

/// As `stem`.png and `stem`.svg.
void write_frame_picture(const Plan& plan, int stage, const std::string& stem);

}  // namespace evenpull::viz
