// The trade between turn-overs and load.
#pragma once

#include "sequencer/plan/order_result.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// Orders that no other beats in turn-overs, use and pull difference at once; fewest turn-overs last. `orders` on the same
/// mesh. Of equal ones the first is kept; one in which the frame gave way has no numbers to compare and is left out.
std::vector<TradeOff> trade_offs_of(const std::vector<OrderResult>& orders);

}  // namespace evenpull::inline sequencer
