// Searches that also prove how good an order can be at best.
#pragma once

#include "sequencer/numbers/parallel_for.hpp"
#include "sequencer/search/found.hpp"

namespace evenpull::inline sequencer {

/// Depth first, the cheapest next step first; a prefix is left where even its least cost is no better than the best
/// known. Exact if it comes to its end within the steps allowed; else what is left open gives the bound.
Found branch_and_bound(const StepModel& m, const Prices& prices, long most_steps, const std::vector<int>& known = {});

/// Bound by best-first search: always the prefix of least cost goes on. Ends early with `exact` when that one is whole.
Found bound_best_first(const StepModel& m, const Prices& prices, long most_steps, const Found& best,
                       const ParallelFor& parallel);

}  // namespace evenpull::inline sequencer
