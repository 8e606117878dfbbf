// Finds orders to be compared: seeds from the families, then a search on reduced models stage by stage (docs/model.md,
// section 8). The first stage is searched on a coarse mesh of the same model, later ones on superposed influences.
#pragma once

#include "sequencer/orders/families.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/plan/search_report.hpp"
#include "sequencer/search/order_search.hpp"
#include "solver/equilibrium/model.hpp"

#include <memory>
#include <vector>

namespace evenpull::inline sequencer {

class OrderFinder {
 public:
  OrderFinder(const Case& c, Accuracy accuracy, ParallelFor parallel);
  ~OrderFinder();

  /// Searched orders, as orders of a whole job on any mesh of the case's panel.
  std::vector<Order> find();

  /// How well the reduced models foretell a run of the full model: worst differences over its prefixes, by stage.
  std::vector<ModelError> foretell(const Order& order, const std::vector<Step>& steps,
                                   const std::vector<Tally>& moments) const;

  /// What the search did, stage by stage, and what it proved.
  const std::vector<StageSearch>& stages() const { return stages_; }

 private:
  struct Desk;
  std::vector<int> in_things(const Order& o) const;
  Order as_order(const std::vector<int>& things) const;
  void search_first();
  void search_later(int stage);

  const Case& case_;
  Accuracy accuracy_;
  ParallelFor parallel_;
  std::unique_ptr<Desk> desk_;
  std::vector<StageSearch> stages_;
};

}  // namespace evenpull::inline sequencer
