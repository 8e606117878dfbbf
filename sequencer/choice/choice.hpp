// Choice among orders (docs/model.md, section 7): the one that holds the hottest stage, then the lowest score, which is a number of
// the order alone: whatever it is compared with, and in whatever order, the same one wins.
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

/// Worst use of damage and distortion, pull difference, unevenness and turn-overs, priced (sequencer/replay/tally.hpp); an order
/// without a rule in words pays three turn-overs a pass more. `turn_overs_count` is false where both sides can be reached.
double score_of(const OrderResult& o, bool turn_overs_count);

/// True when `a` holds a hotter stage, or scores lower by more than `least`.
bool better_by(const OrderResult& a, const OrderResult& b, bool turn_overs_count, double least);

/// Index of the best of several, at least one, which stand in the order of their ease.
int best_of(const std::vector<OrderResult>& in_order_of_ease, bool turn_overs_count);

}  // namespace evenpull::inline sequencer
