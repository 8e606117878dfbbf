// Searches for the order that costs least, on any StepModel, with what is proven about it.
#pragma once

#include "sequencer/search/order_moves.hpp"
#include "sequencer/search/order_proof.hpp"

#include <vector>

namespace evenpull::inline sequencer {

struct SearchOptions {
  int exact_size = 9;           ///< up to so many things branch and bound goes through to the end if steps allow
  long most_steps = 2'000'000;  ///< model steps of branch and bound
  int width = 8;                ///< of the beam
  long most_tries = 20'000;     ///< model steps of the local moves
};

/// All of it: seeds, beam and local moves, then proof as far as the options allow. `seeds` are orders to begin with.
Found search_orders(const StepModel& m, const Prices& prices, const SearchOptions& options, const ParallelFor& parallel,
                    const std::vector<std::vector<int>>& seeds);

}  // namespace evenpull::inline sequencer
