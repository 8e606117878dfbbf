// One picture of the shape in which the frame would buckle.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull::viz {

/// Nothing to draw, so false and no file, where the stage has no buckling shape.
bool write_buckling_picture(const Plan& plan, int stage, const std::string& path);

}  // namespace evenpull::viz
