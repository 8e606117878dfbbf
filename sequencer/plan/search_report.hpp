// What a search for an order did and what it proved: plain values for the plan.
#pragma once

namespace evenpull::inline sequencer {

/// What a search walked through.
enum class SearchModel {
  coarse_mesh,  ///< every prefix computed
  influences    ///< superposed, with load line and ratchet
};

/// Worst difference between a reduced model and the full one over all prefixes of the orders that both ran.
struct ModelError {
  int stage = 0;
  double use = 0;         ///< share of the limit
  double difference = 0;  ///< N/m
  double slip = 0;        ///< m
};

/// One stage as it was searched. Cost, bound and gap hold for `model` and the stage by itself, from the state that the
/// order of the stages before leaves.
struct StageSearch {
  int stage = 0;
  SearchModel model = SearchModel::coarse_mesh;
  int things = 0;  ///< what was put in order: zones, or whole bays of one side
  bool by_zones = false;
  double cost = 0, least_cost = 0;  ///< of the best order, of any order; prices: sequencer/replay/tally.hpp
  double use = 0, least_use = 0;    ///< worst use on the way: of the best order; no order has less
  bool exact = false;               ///< the best there is in this model
  bool measured_again = false;      ///< the influences were measured once more about the order found
  long steps = 0;                   ///< model steps taken
  int unsolved = 0;    ///< of them that found no equilibrium: orders with these were left out, so nothing is proven
  ModelError error{};  ///< against the full model

  double gap() const { return cost > 0 ? (cost - least_cost) / cost : 0; }
};

}  // namespace evenpull::inline sequencer
