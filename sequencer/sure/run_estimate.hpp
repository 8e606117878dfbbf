// How long a plan will take, before it is made.
#pragma once

#include "sequencer/plan/accuracy.hpp"
#include "solver/statement/case.hpp"

namespace evenpull::inline sequencer {

/// Estimate of what `make_plan` will take on this class of machine, for `survey`.
struct RunEstimate {
  int nodes = 0, zones = 0, steps = 0;
  double seconds = 0;
};
RunEstimate estimate_run(const Case& c, Accuracy a);

}  // namespace evenpull::inline sequencer
