// Every order there is, one after the other: what the searches are held against, up to 8 things.
#pragma once

#include "sequencer/search/found.hpp"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <vector>

namespace evenpull {

inline Found try_all(const StepModel& m, const Prices& prices) {
  assert(m.size() <= 8);
  std::vector<int> order(m.size());
  std::iota(order.begin(), order.end(), 0);
  Found best;
  best.cost = never;
  long steps = 0;
  double least_use = never;
  do {
    const Found f = evaluate(m, prices, order);
    steps += f.steps;
    least_use = std::min(least_use, f.stands ? f.tally.use : never);
    if (f.cost < best.cost - same_cost) best = f;
  } while (std::next_permutation(order.begin(), order.end()));
  best.exact = true;
  best.least_cost = best.cost;
  best.least_use = least_use;
  best.steps = steps;
  return best;
}

}  // namespace evenpull
