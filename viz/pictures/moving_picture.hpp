// The whole order in motion: both skins after every step, the zone just ironed outlined.
#pragma once

#include "viz/pictures/pull_picture.hpp"

namespace evenpull::viz {

/// An animated PNG; false and no file when there are no steps. Up to the hottest safe stage, or the first without one.
bool write_moving_picture(const Plan& plan, const PullScale& scale, const std::string& path);

}  // namespace evenpull::viz
