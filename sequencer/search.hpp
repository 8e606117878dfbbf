// A search for an order nobody has a rule for: blocks (one bay of one side) are laid one by one, each time the one that
// loads the structure least, on a coarse mesh of the same model; then neighbours are exchanged while that helps.
// The state depends on the order (ratchet, load line, friction), so every try is computed, none is superposed.
#pragma once

#include "sequencer/choice.hpp"
#include "sequencer/planner.hpp"

namespace evenpull {

struct SearchWish {
  ParallelFor parallel;
  int rounds = 1;  ///< rounds of exchanging neighbours
};

/// Best order found for the first stage of the case. `coarse` is the mesh it is computed on.
Order search_order(const Model& coarse, const SearchWish& wish);

}  // namespace evenpull
