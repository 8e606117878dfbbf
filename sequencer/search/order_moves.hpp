// Searches that find a good order and prove nothing.
#pragma once

#include "sequencer/search/found.hpp"

namespace evenpull::inline sequencer {

/// Level by level, keeping the `width` cheapest prefixes; of two that hold the same things and end with the same one the
/// cheaper is kept (dominance: a rule of thumb here, since states differ with the order).
Found beam_search(const StepModel& m, const Prices& prices, int width, const ParallelFor& parallel);

/// Swaps two, moves one or reverses a piece, drawn at random (the same draws every time), while steps last and it gets cheaper
/// now and then. An order is left as soon as it cannot cost less. The same result on any number of threads.
Found improve(const StepModel& m, const Prices& prices, const std::vector<int>& from, long most_steps,
              const ParallelFor& parallel);

}  // namespace evenpull::inline sequencer
