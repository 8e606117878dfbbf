#include "sequencer/search/found.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {

double least_of(const StepModel& m, const Prefix& p, const Prices& prices) {
  Tally t = p.tally;
  t.use = std::max(t.use, m.least_end_use(p));
  return least_cost_of(t, prices);
}

double least_use_of(const StepModel& m, const Prefix& p) { return std::max(p.tally.use, m.least_end_use(p)); }

Found whole(const StepModel& m, const Prices& prices, std::vector<int> order, const Prefix& end) {
  Found f;
  f.order = std::move(order);
  f.tally = end.tally;
  f.stands = end.stands;
  f.cost = end.stands ? cost_of(end.tally, prices) : never;
  f.model = m.kind();
  return f;
}

std::vector<int> left_of(int n, const std::vector<int>& order) {
  std::vector<char> used(n, 0);
  for (int i : order) used[i] = 1;
  std::vector<int> left;
  for (int i = 0; i < n; ++i)
    if (!used[i]) left.push_back(i);
  return left;
}

Found evaluate(const StepModel& m, const Prices& prices, const std::vector<int>& order) {
  Found f = whole(m, prices, order, *walk(m, m.begin(), order));
  f.steps = static_cast<long>(order.size()) * m.passes();
  return f;
}

}  // namespace evenpull::inline sequencer
