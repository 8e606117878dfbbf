// How long a plan will take, before it is made.
#pragma once

#include "sequencer/plan/accuracy.hpp"
#include "solver/statement/case.hpp"

namespace evenpull::inline sequencer {

/// Estimate of what a plan will take on an ordinary machine that does nothing else, drawing and writing included.
struct RunEstimate {
  int nodes = 0, zones = 0, steps = 0;
  double processor_seconds = 0;  ///< of all processors together
  /// On the clock.
  double seconds_on(int processors) const;
};
RunEstimate estimate_run(const Case& c, Accuracy a);

}  // namespace evenpull::inline sequencer
