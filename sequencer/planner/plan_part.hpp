// The parts of making a plan, in the order in which they are done.
#pragma once

#include <functional>

namespace evenpull::inline sequencer {

enum class PlanPart {
  passes,
  search,
  ranking,
  finalists,
  in_full,
  given_order,
  error_bars,
  setting,
  chances,
  another_order
};

/// May be called from any thread.
using PlanProgress = std::function<void(double share_done, PlanPart part)>;

}  // namespace evenpull::inline sequencer
