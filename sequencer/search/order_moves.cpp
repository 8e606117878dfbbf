#include "sequencer/search/order_moves.hpp"

#include <algorithm>
#include <functional>
#include <map>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

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

}  // namespace evenpull::inline sequencer
