#include "sequencer/search/order_moves.hpp"

#include <algorithm>
#include <cstddef>
#include <map>
#include <random>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

// A neighbour of an order, with the place from which it differs: two swapped, one moved, or a piece reversed.
struct Neighbour {
  std::vector<int> order;
  int from = 0;
};

// The draws are std::mt19937's, which the standard fixes to the bit; its distributions are not.
Neighbour draw_neighbour(const std::vector<int>& order, std::mt19937& random) {
  const auto n = static_cast<unsigned>(order.size());
  const auto a = random() % n, b = (a + 1 + random() % (n - 1)) % n, low = std::min(a, b), high = std::max(a, b);
  Neighbour out{order, static_cast<int>(low)};
  const auto at = [&](auto i) { return out.order.begin() + static_cast<std::ptrdiff_t>(i); };
  switch (random() % 3) {
    case 0: std::swap(out.order[a], out.order[b]); break;
    case 1:
      if (a < b) std::rotate(at(a), at(a + 1), at(b + 1));
      else std::rotate(at(b), at(a), at(a + 1));
      break;
    default: std::reverse(at(low), at(high + 1));
  }
  return out;
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

struct Tried {
  Found found;  // costs `never` if it was left on the way
  long steps = 0;
};

// Left as soon as it cannot cost less than the limit.
Tried try_below(const StepModel& m, const Prices& prices, PrefixPtr p, const std::vector<int>& order, double limit) {
  Tried out;
  out.found.cost = never;
  const int all = m.size() * m.passes();
  while (p->stands && p->steps < all) {
    p = m.step(p, order[static_cast<std::size_t>(p->steps % m.size())]);
    ++out.steps;
    if (p->stands && least_of(m, *p, prices) >= limit) return out;
  }
  if (p->stands) out.found = whole(m, prices, order, *m.finish(p));
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

Found improve(const StepModel& m, const Prices& prices, const std::vector<int>& from, long most_steps,
              const ParallelFor& parallel) {
  constexpr int at_once = 8;     // tried side by side; the best of them goes on, whatever the number of threads
  constexpr long patience = 10;  // so many times the square of the size in vain: there is hardly a better neighbour
  Found best = evaluate(m, prices, from);
  const long things = static_cast<long>(from.size());
  if (!best.stands || things < 2) return best;
  std::mt19937 random(1);
  std::vector<PrefixPtr> prefixes = prefixes_of(m, best.order);
  long steps = best.steps + things, in_vain = 0;
  std::vector<Neighbour> batch(at_once);
  std::vector<Tried> tried(at_once);
  while (steps < most_steps && in_vain < patience * things * things) {
    for (Neighbour& one : batch) one = draw_neighbour(best.order, random);
    parallel(at_once, [&](int i) {
      const auto k = static_cast<std::size_t>(i);
      tried[k] = try_below(m, prices, prefixes[static_cast<std::size_t>(batch[k].from)], batch[k].order, best.cost);
    });
    in_vain += at_once;
    const double before = best.cost;
    for (Tried& one : tried) {
      steps += one.steps;
      if (one.found.cost < best.cost - same_cost) best = std::move(one.found);
    }
    if (best.cost == before) continue;
    in_vain = 0;
    prefixes = prefixes_of(m, best.order);
    steps += things;
  }
  best.steps = steps;
  return best;
}

}  // namespace evenpull::inline sequencer
