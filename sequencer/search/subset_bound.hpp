// The superposition surrogate: every step has its whole effect whatever came before, so a prefix depends on its set alone
// and the best order follows by dynamic programming over subsets (Held and Karp's recursion with the worst on the way in
// place of the sum; from memory). Exact for this surrogate only: a seed, and a yardstick for other searches.
#pragma once

#include "sequencer/search/influence.hpp"

#include <vector>

namespace evenpull {

struct SubsetAnswer {
  std::vector<int> order;
  double worst = 0;  ///< use + price of pull difference and slip, worst over the prefixes of the order
};

/// Most things for which it is done: 2^n numbers are kept.
inline constexpr int most_in_subsets = 18;

/// Least worst cost over all prefixes, travel, turn-overs and unevenness left out; every thing takes the step that it takes
/// first of all. Throws std::invalid_argument for more things.
SubsetAnswer best_by_subsets(const InfluenceModel& m, const Prices& prices);

}  // namespace evenpull
