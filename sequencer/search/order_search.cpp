#include "sequencer/search/order_search.hpp"

#include <algorithm>
#include <cassert>
#include <limits>
#include <map>
#include <numeric>
#include <queue>

namespace evenpull {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();
// Cheaper by less than this is the same: it keeps searches from walking in circles on rounding.
constexpr double same_cost = 1e-9;
constexpr int full_width_up_to = 48, least_width = 1;

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

class DepthFirst {
 public:
  DepthFirst(const StepModel& m, const Prices& prices, long most_steps) : m_(m), prices_(prices), most_(most_steps) {}

  Found run(const std::vector<int>& known) {
    best_ = known.empty() ? Found{} : evaluate(m_, prices_, known);
    if (known.empty()) best_.cost = never;
    best_.model = m_.kind();
    steps_ = known.empty() ? 0 : static_cast<long>(known.size()) * m_.passes();
    open_cost_ = open_use_ = never;
    go(m_.begin());
    best_.exact = open_cost_ == never;
    best_.least_cost = std::min(best_.cost, open_cost_);
    best_.least_use = std::min({least_use_left_, open_use_, best_.tally.use});
    best_.steps = steps_;
    return best_;
  }

 private:
  void go(const PrefixPtr& p) {
    const int n = m_.size();
    if (static_cast<int>(order_.size()) == n) {
      const PrefixPtr end = walk(m_, p, order_);
      steps_ += static_cast<long>(n) * (m_.passes() - 1);
      least_use_left_ = std::min(least_use_left_, end->stands ? end->tally.use : never);
      const Found f = whole(m_, prices_, order_, *end);
      if (f.cost < best_.cost - same_cost) best_ = f;
      return;
    }
    std::vector<std::pair<double, int>> next;
    std::vector<PrefixPtr> made(n);
    for (int i : left_of(n, order_)) {
      made[i] = m_.step(p, i);
      ++steps_;
      if (made[i]->stands) next.emplace_back(least_of(m_, *made[i], prices_), i);
    }
    std::sort(next.begin(), next.end());
    for (const auto& [least, i] : next) {
      if (least >= best_.cost - same_cost) {  // no better, but its use may be lower
        least_use_left_ = std::min(least_use_left_, least_use_of(m_, *made[i]));
        continue;
      }
      if (steps_ >= most_) {
        open_cost_ = std::min(open_cost_, least);
        open_use_ = std::min(open_use_, least_use_of(m_, *made[i]));
        continue;
      }
      order_.push_back(i);
      go(made[i]);
      order_.pop_back();
      made[i].reset();
    }
  }

  const StepModel& m_;
  const Prices& prices_;
  long most_, steps_ = 0;
  std::vector<int> order_;
  Found best_;
  double open_cost_ = never, open_use_ = never, least_use_left_ = never;
};

// Neighbours of an order, each with the place from which it differs.
struct Neighbour {
  std::vector<int> order;
  int from = 0;
};

// Gives one neighbour after the other to `take`, until it says false.
void each_neighbour(const std::vector<int>& order, const std::function<bool(Neighbour)>& take) {
  const int n = static_cast<int>(order.size());
  constexpr int longest_piece = 3;
  for (int i = 0; i < n; ++i)
    for (int j = i + 1; j < n; ++j) {
      Neighbour swapped{order, i};
      std::swap(swapped.order[i], swapped.order[j]);
      if (!take(std::move(swapped))) return;
      if (j == i + 1) continue;
      Neighbour reversed{order, i};
      std::reverse(reversed.order.begin() + i, reversed.order.begin() + j + 1);
      if (!take(std::move(reversed))) return;
    }
  for (int length = 1; length <= longest_piece; ++length)
    for (int i = 0; i + length <= n; ++i)
      for (int to = 0; to + length <= n; ++to) {
        if (to == i || (length == 1 && to == i + 1)) continue;  // the latter is a swap already
        Neighbour moved{order, std::min(i, to)};
        const std::vector<int> piece(order.begin() + i, order.begin() + i + length);
        moved.order.erase(moved.order.begin() + i, moved.order.begin() + i + length);
        moved.order.insert(moved.order.begin() + to, piece.begin(), piece.end());
        if (!take(std::move(moved))) return;
      }
}

// The prefixes of an order's first pass: [k] holds k things.
std::vector<PrefixPtr> prefixes_of(const StepModel& m, const std::vector<int>& order) {
  std::vector<PrefixPtr> out = {m.begin()};
  for (int i : order) {
    if (!out.back()->stands) break;
    out.push_back(m.step(out.back(), i));
  }
  return out;
}

}  // namespace

Found evaluate(const StepModel& m, const Prices& prices, const std::vector<int>& order) {
  Found f = whole(m, prices, order, *walk(m, m.begin(), order));
  f.steps = static_cast<long>(order.size()) * m.passes();
  return f;
}

Found branch_and_bound(const StepModel& m, const Prices& prices, long most_steps, const std::vector<int>& known) {
  return DepthFirst(m, prices, most_steps).run(known);
}

Found beam_search(const StepModel& m, const Prices& prices, int width, const ParallelFor& parallel) {
  struct Kept {
    std::vector<int> order;
    PrefixPtr prefix;
    double cost = 0;
  };
  const int n = m.size();
  std::vector<Kept> beam = {{{}, m.begin(), 0}};
  long steps = 0;
  for (int level = 0; level < n && !beam.empty(); ++level) {
    std::vector<Kept> next;
    for (const Kept& k : beam)
      for (int i : left_of(n, k.order)) {
        next.push_back({k.order, k.prefix, 0});
        next.back().order.push_back(i);
      }
    parallel(static_cast<int>(next.size()), [&](int i) {
      next[i].prefix = m.step(next[i].prefix, next[i].order.back());
      next[i].cost = next[i].prefix->stands ? least_of(m, *next[i].prefix, prices) : never;
    });
    steps += static_cast<long>(next.size());
    std::stable_sort(next.begin(), next.end(), [](const Kept& a, const Kept& b) { return a.cost < b.cost; });
    beam.clear();
    std::map<std::pair<std::vector<int>, int>, char> seen;
    for (Kept& k : next) {
      if (k.cost == never || static_cast<int>(beam.size()) == width) break;
      std::vector<int> set = k.order;
      std::sort(set.begin(), set.end());
      if (seen.emplace(std::make_pair(std::move(set), k.order.back()), 1).second) beam.push_back(std::move(k));
    }
  }
  Found best;
  best.cost = never;
  best.model = m.kind();
  std::vector<Found> ends(beam.size());
  parallel(static_cast<int>(beam.size()),
           [&](int i) { ends[i] = whole(m, prices, beam[i].order, *walk(m, beam[i].prefix, beam[i].order)); });
  for (const Found& f : ends)
    if (f.cost < best.cost - same_cost) best = f;
  best.steps = steps + static_cast<long>(ends.size()) * n * (m.passes() - 1);
  return best;
}

Found improve(const StepModel& m, const Prices& prices, const std::vector<int>& from, long most_tries,
              const ParallelFor& parallel) {
  constexpr int at_once = 16;  // tried side by side; the best of them goes on, whatever the number of threads
  Found best = evaluate(m, prices, from);
  long steps = best.steps;
  const long all = best.steps;
  bool better = best.stands;
  while (better && steps < most_tries) {
    better = false;
    const std::vector<PrefixPtr> prefixes = prefixes_of(m, best.order);
    steps += static_cast<long>(best.order.size());
    std::vector<Neighbour> batch;
    const auto try_batch = [&] {
      std::vector<Found> tried(batch.size());
      parallel(static_cast<int>(batch.size()), [&](int i) {
        tried[i] = whole(m, prices, batch[i].order, *walk(m, prefixes[batch[i].from], batch[i].order));
      });
      for (const Neighbour& one : batch) steps += all - one.from;
      batch.clear();
      for (Found& f : tried)
        if (f.cost < best.cost - same_cost) best = std::move(f), better = true;
    };
    each_neighbour(best.order, [&](Neighbour one) {
      batch.push_back(std::move(one));
      if (static_cast<int>(batch.size()) == at_once) try_batch();
      return !better && steps < most_tries;
    });
    if (!better && steps < most_tries) try_batch();
  }
  best.steps = steps;
  return best;
}

Found bound_best_first(const StepModel& m, const Prices& prices, long most_steps, const Found& best) {
  struct Open {
    double least = 0;
    long number = 0;  // ties: the one made first
    std::vector<int> order;
    PrefixPtr prefix;
    bool whole = false;
  };
  const auto later = [](const Open& a, const Open& b) {
    return a.least != b.least ? a.least > b.least : a.number > b.number;
  };
  std::priority_queue<Open, std::vector<Open>, decltype(later)> open(later);
  Found out = best;
  out.least_cost = best.cost;
  const int n = m.size();
  long number = 0, steps = 0;
  double dropped_use = never;
  const PrefixPtr begin = m.begin();
  open.push({least_of(m, *begin, prices), number++, {}, begin});
  while (!open.empty() && open.top().least < out.cost - same_cost && steps < most_steps) {
    const Open now = open.top();
    open.pop();
    for (int i : left_of(n, now.order)) {
      Open next;
      next.prefix = m.step(now.prefix, i);
      ++steps;
      if (!next.prefix->stands) continue;
      next.order = now.order;
      next.order.push_back(i);
      next.number = number++;
      next.least = least_of(m, *next.prefix, prices);
      if (static_cast<int>(next.order.size()) == n) {
        const PrefixPtr end = walk(m, next.prefix, next.order);
        steps += static_cast<long>(n) * (m.passes() - 1);
        Found f = whole(m, prices, next.order, *end);
        dropped_use = std::min(dropped_use, end->stands ? end->tally.use : never);
        if (f.cost < out.cost - same_cost) out.order = f.order, out.tally = f.tally, out.cost = f.cost, out.stands = true;
        continue;
      }
      if (next.least >= out.cost - same_cost)
        dropped_use = std::min(dropped_use, least_use_of(m, *next.prefix));
      else
        open.push(std::move(next));
    }
  }
  out.exact = open.empty() || open.top().least >= out.cost - same_cost;
  out.least_cost = out.exact ? out.cost : std::min(out.cost, open.top().least);
  out.least_use = dropped_use;
  for (; !open.empty(); open.pop()) out.least_use = std::min(out.least_use, least_use_of(m, *open.top().prefix));
  out.least_use = std::min(out.least_use, out.tally.use);
  out.steps = best.steps + steps;
  return out;
}

Found search_orders(const StepModel& m, const Prices& prices, const SearchEffort& effort, const ParallelFor& parallel,
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
  const int width = std::max(least_width, std::min(effort.width, effort.width * full_width_up_to / std::max(1, m.size())));
  take(beam_search(m, prices, width, parallel));
  if (best.stands) take(improve(m, prices, best.order, effort.most_tries, parallel));
  best.steps = steps;
  if (!best.stands) return best;
  Found proven = m.size() <= effort.exact_size ? branch_and_bound(m, prices, effort.most_steps, best.order)
                                               : bound_best_first(m, prices, effort.most_steps, best);
  proven.steps = steps + proven.steps;
  return proven;
}

Found try_all(const StepModel& m, const Prices& prices) {
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
