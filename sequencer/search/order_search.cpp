#include "sequencer/search/order_search.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
namespace {

constexpr int full_width_up_to = 48, least_width = 1;

}  // namespace

Found search_orders(const StepModel& m, const Prices& prices, const SearchOptions& options, const ParallelFor& parallel,
                    const std::vector<std::vector<int>>& seeds) {
  std::vector<Found> tries(seeds.size());
  parallel(static_cast<int>(seeds.size()), [&](int i) { tries[i] = evaluate(m, prices, seeds[i]); });
  Found best;
  best.cost = never;
  best.model = m.kind();
  long steps = 0;
  const auto take = [&](const Found& f) {
    steps += f.steps;
    if (f.cost < best.cost - same_cost) best = f;
  };
  for (const Found& f : tries) take(f);
  // Few for many things, so that the work grows with their square and not their cube.
  const int width =
      std::max(least_width, std::min(options.width, options.width * full_width_up_to / std::max(1, m.size())));
  take(beam_search(m, prices, width, parallel));
  if (best.stands) take(improve(m, prices, best.order, options.most_tries, parallel));
  best.steps = steps;
  if (!best.stands) return best;
  Found proven = m.size() <= options.exact_size ? branch_and_bound(m, prices, options.most_steps, best.order)
                                                : bound_best_first(m, prices, options.most_steps, best, one_by_one);
  proven.steps = steps + proven.steps;
  return proven;
}

}  // namespace evenpull::inline sequencer
