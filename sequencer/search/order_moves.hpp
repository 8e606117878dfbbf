// Searches that find a good order and prove nothing.
#pragma once

#include "sequencer/search/found.hpp"

namespace evenpull::inline sequencer {

/// Level by level, keeping the `width` cheapest prefixes; of two that hold the same things and end with the same one the
/// cheaper is kept (dominance: a rule of thumb here, since states differ with the order).
Found beam_search(const StepModel& m, const Prices& prices, int width, const ParallelFor& parallel);

/// Swaps two, reverses a piece, moves a piece elsewhere, while it gets cheaper. The same result on any number of threads.
Found improve(const StepModel& m, const Prices& prices, const std::vector<int>& from, long most_tries,
              const ParallelFor& parallel);

}  // namespace evenpull::inline sequencer
