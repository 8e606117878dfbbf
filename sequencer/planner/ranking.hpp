// All orders that come into question, run on a coarse mesh.
#pragma once

#include "sequencer/choice/choice.hpp"
#include "sequencer/plan/note.hpp"
#include "sequencer/planner/plan_job.hpp"
#include "sequencer/search/order_finder.hpp"

#include <memory>
#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

struct Ranking {
  std::vector<Tried> ranked;              ///< those that found an equilibrium and keep within the turn-overs wanted
  std::vector<Tried> met{};               ///< the best, on a mesh between the coarse one and the plan's own
  std::vector<Tried> set_aside{};         ///< with too long a run in the first stage: taken where nothing else is left
  std::vector<Tried> before_limit{};      ///< where turn-overs were limited: all of them
  std::unique_ptr<OrderFinder> finder{};  ///< none: nothing was searched
  std::optional<note::FewestTurnOvers> turn_overs{};  ///< no order has as few as were wanted
  std::optional<note::KeepsShapeLess> passed_over{};  ///< the best by score that does not keep the shape
  std::optional<Note> steps_done{};  ///< what they have brought the frame to, where that is beyond its limits
  std::vector<note::MustWait> waits{};
  Dropped dropped{};

  /// All that were compared by turn-overs and load.
  const std::vector<Tried>& compared() const { return before_limit.empty() ? ranked : before_limit; }
  /// Drops an order that turned out not to be solved.
  void drop(const OrderId& id);
};

/// Families, searched orders and mirrors. Throws NotConverged where none found an equilibrium.
Ranking rank_orders(const PlanJob& job);

/// Numbers of each, up to its own ceiling.
std::vector<OrderResult> summaries(const std::vector<Tried>& tried, const Panel& p);

}  // namespace evenpull::inline sequencer
