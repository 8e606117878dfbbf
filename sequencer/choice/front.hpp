// The trade between turn-overs and load, and what the search can say about its answer, in numbers and in a sentence.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "sequencer/plan/search_report.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// Orders that no other beats in turn-overs, use and pull difference at once; fewest turn-overs last. `orders` on the same
/// mesh. Of equal ones the first is kept; one in which the frame gave way has no numbers to compare and is left out.
std::vector<FrontPoint> front_of(const std::vector<OrderResult>& orders);

/// "11 turn-overs a pass keep the worst pull difference at 116 N/m and the use at 0.92; 1 lets them rise to 160 N/m and
/// 0.99." Empty if there is nothing to trade.
std::string front_sentence(const std::vector<FrontPoint>& front);

/// What is proven about the order, in plain words; empty if nothing was searched.
std::string gap_sentence(const Case& c, const std::vector<StageSearch>& searched, std::optional<int> ceiling);

}  // namespace evenpull
