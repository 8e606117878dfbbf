// The two ways that a lesson sets against the plan.
#pragma once

#include "sequencer/orders/order_steps.hpp"

#include <vector>

namespace evenpull {

/// All of the top from root to tip, then all of the bottom, in every pass: the wrong way.
std::vector<OrderStep> one_side_first(const Case& c, const Panel& p, int last_stage);

/// Bay by bay from root to tip, both sides of a bay before the next: the plain way. The side worked last begins the next
/// bay.
std::vector<OrderStep> root_to_tip(const Case& c, const Panel& p, int last_stage);

}  // namespace evenpull
