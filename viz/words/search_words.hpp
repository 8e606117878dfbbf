// What is known about the order: what turn-overs buy, and what is proven.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull::viz {

/// "11 turn-overs a pass keep the worst pull difference at 116 N/m and the use at 0.92; 1 turn-over makes them 160 N/m and
/// 0.99 (coarse mesh)." Empty if there is nothing to trade.
std::string trade_sentence(const std::vector<TradeOff>& points);
/// What is proven about the order, in plain words; empty if nothing was searched.
std::string proof_sentence(const Plan& plan);
/// "coarse mesh, every prefix computed".
const char* search_model_text(SearchModel m);

}  // namespace evenpull::viz
