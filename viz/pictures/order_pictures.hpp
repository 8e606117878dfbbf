// Pictures of the order: the way the iron takes over both skins in the first pass of a stage, and what turn-overs buy.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull::viz {

/// Numbers of the first pass, arrows where the next zone is no neighbour. False, and nothing is written, where no zone of the
/// stage is to be ironed. Throws CannotWriteFile that names the file.
bool write_route_picture(const Plan& plan, int stage, const std::string& path);

/// Worst use and worst pull difference of the orders compared over their turn-overs in a pass. False, and nothing is written,
/// where there is nothing to trade.
bool write_turn_over_picture(const Plan& plan, const std::string& path);

}  // namespace evenpull::viz
