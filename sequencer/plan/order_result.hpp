// What an order that was run came to.
#pragma once

#include "sequencer/plan/order_id.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// Which mesh gave the numbers of an order: the one that all orders are ranked on, the one on which the best of them meet,
/// or that of the plan.
enum class OrderModel { coarse, between, full };

struct OrderResult {
  OrderId order;
  OrderModel model = OrderModel::coarse;
  int stages_passed = 0;  ///< how many stages hold every limit, error bars not counted (only the chosen order has them)
  double worst_use = 0;   ///< up to the chosen ceiling (or of the first stage if there is none)
  std::optional<double> unevenness_final;      ///< none: the frame gave way before
  double worst_pull_difference_chordwise = 0;  ///< N/m
  double worst_pull_difference_spanwise = 0;   ///< N/m
  double worst_slip = 0;                       ///< m
  double worst_twist = 0;                      ///< rad
  std::optional<double>
      pull_spread_along_span;  ///< N/m: worst difference of zone-column pull along the span on one side
  int turn_overs = 0;          ///< still to come, of the order as planned
  int turn_overs_a_pass = 0;   ///< most still to come in any pass
  int passes = 0;              ///< still to come
  bool gave_way = false;       ///< the frame gave way up to there: the other numbers are of what came before
  bool chosen = false;
  std::vector<double> uses{};  ///< worst use of each limit up to there, largest first
};

/// One way to trade turn-overs against load: no other order that was compared has fewer turn-overs without a higher use or
/// pull difference.
struct TradeOff {
  OrderId order;
  int turn_overs_a_pass = 0;
  double use = 0;         ///< worst up to the ceiling, on the coarse mesh, so that points compare
  double difference = 0;  ///< N/m, worst on the way
  bool chosen = false;
};

/// Whether there is anything to trade: `points` from most turn-overs to fewest.
inline bool is_a_trade(const std::vector<TradeOff>& points) {
  return points.size() > 1 && points.front().turn_overs_a_pass != points.back().turn_overs_a_pass;
}

}  // namespace evenpull::inline sequencer
