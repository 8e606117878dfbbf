// Means over zones of what a snapshot holds per quad.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <vector>

namespace evenpull::viz {

/// Area means of a per-quad array over each zone.
std::vector<double> zone_means(const Panel& panel, const std::vector<float>& per_quad);

/// The snapshot at the end of a stage; nullptr when the plan holds none.
const Snapshot* stage_end(const Plan& plan, int stage);

}  // namespace evenpull::viz
