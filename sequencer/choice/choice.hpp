// Choice among orders (docs/model.md, section 7): the one that holds the hottest stage, then the lowest score, which is a number of
// the order alone: whatever it is compared with, and in whatever order, the same one wins.
#pragma once

#include "sequencer/orders/families.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "sequencer/replay/tally.hpp"

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

/// Worst use of damage and distortion, pull difference, unevenness and turn-overs, priced; an order without a rule in words pays
/// more for each pass.
double score_of(const OrderResult& o, const Prices& prices);

/// True when `a` holds a hotter stage, or scores lower by more than `least`.
bool better_by(const OrderResult& a, const OrderResult& b, const Prices& prices, double least);

/// Index of the best of several, at least one, which stand in the order of their ease.
int best_of(const std::vector<OrderResult>& in_order_of_ease, const Prices& prices);

}  // namespace evenpull::inline sequencer
