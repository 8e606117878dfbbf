#include "sequencer/choice/trade_offs.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
namespace {

// Differences below these are no reason to call an order better.
constexpr double same_use = 0.002;
constexpr double same_difference = 1;  // N/m

double difference_of(const OrderResult& o) {
  return std::max(o.worst_pull_difference_chordwise, o.worst_pull_difference_spanwise);
}

bool beats(const TradeOff& a, const TradeOff& b) {
  return a.turn_overs_a_pass <= b.turn_overs_a_pass && a.use <= b.use + same_use &&
         a.difference <= b.difference + same_difference;
}

}  // namespace

std::vector<TradeOff> trade_offs_of(const std::vector<OrderResult>& orders) {
  std::vector<TradeOff> points;
  for (const OrderResult& o : orders)
    if (!o.gave_way) points.push_back({o.order, o.turn_overs_a_pass, o.worst_use, difference_of(o), o.chosen});
  std::vector<TradeOff> kept;
  for (std::size_t i = 0; i < points.size(); ++i) {
    bool beaten = false;
    for (std::size_t k = 0; k < points.size() && !beaten; ++k)
      beaten = k != i && beats(points[k], points[i]) && (k < i || !beats(points[i], points[k]));
    if (!beaten || points[i].chosen) kept.push_back(points[i]);
  }
  std::stable_sort(kept.begin(), kept.end(),
                   [](const TradeOff& a, const TradeOff& b) { return a.turn_overs_a_pass > b.turn_overs_a_pass; });
  return kept;
}

}  // namespace evenpull::inline sequencer
