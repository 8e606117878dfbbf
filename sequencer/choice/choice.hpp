// Choice among orders (docs/model.md, section 7): highest ceiling; then the worst use of any limit, then the second worst
// and so on (the worst is often the pull at the end, which no order changes); then pull difference and slip; then
// turn-overs. What lies within 2 % counts as equal, and of equals the easier order wins.
#pragma once

#include "sequencer/orders/families.hpp"
#include "sequencer/replay/ceiling.hpp"

namespace evenpull::inline sequencer {

/// An order with what its replay gave.
struct Tried {
  Order order;
  ReplayResult result;
  OrderModel model = OrderModel::coarse;
};

/// The numbers of an order up to its own ceiling, or of the first stage when it has none.
OrderResult summarise(const Tried& t, const Panel& p);
/// The same up to a given last stage.
OrderResult summarise_up_to(const Tried& t, const Panel& p, int last);

/// True when `a` is clearly better than `b`; `turn_overs_count` is false where both sides can be reached.
bool clearly_better(const OrderResult& a, const OrderResult& b, bool turn_overs_count);

/// Index of the best of several, at least one, which stand in the order of their ease.
int best_of(const std::vector<OrderResult>& in_order_of_ease, bool turn_overs_count);

}  // namespace evenpull::inline sequencer
