// How good the searches are: gaps by size, against every order there is, against rules and against chance. Prints tables
// for RECORD.md; nothing is timed here but to show that it takes seconds.
#include "sequencer/orders/families.hpp"
#include "sequencer/search/order_search.hpp"
#include "tests/support/every_order.hpp"
#include "tests/support/line_panel.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <numeric>
#include <random>

using namespace evenpull;

namespace {

double now() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

SearchOptions options() {
  SearchOptions e;
  e.most_steps = 400'000;
  e.width = 64;
  e.most_tries = 200'000;
  return e;
}

// Bays in an order, both sides of each, the side worked last first.
std::vector<int> both_sides(const std::vector<int>& bays, int n) {
  std::vector<int> order;
  int side = 0;
  for (int b : bays) {
    order.push_back(side * n + b), order.push_back((1 - side) * n + b);
    side = 1 - side;
  }
  return order;
}

// Bit reversal (van der Corput's sequence in base 2): an outside yardstick for even spreading.
std::vector<int> bit_reversal(int n) {
  int bits = 0;
  while ((1 << bits) < n) ++bits;
  std::vector<int> order;
  for (int i = 0; i < 1 << bits; ++i) {
    int r = 0;
    for (int b = 0; b < bits; ++b)
      if (i & 1 << b) r |= 1 << (bits - 1 - b);
    if (r < n) order.push_back(r);
  }
  return order;
}

void gaps() {
  std::printf(
      "| zones | time [s] | cost | gap of cost | worst use | bound on use | model steps | proven best "
      "|\n|---|---|---|---|---|---|---|---|\n");
  for (int n : {8, 12, 20, 48, 120, 400}) {
    const InfluenceModel m = line_panel(n);
    std::vector<int> plain(static_cast<std::size_t>(m.size()));
    std::iota(plain.begin(), plain.end(), 0);
    const double start = now();
    const Found f = search_orders(m, {}, options(), one_by_one, {plain, both_sides(centre_out_halving(n / 2), n / 2)});
    std::printf("| %d | %.2f | %.4f | %.1f %% | %.4f | %.4f | %ld | %s |\n", n, now() - start, f.cost, 100 * f.gap(),
                f.tally.use, f.least_use, f.steps, f.exact ? "yes" : "no");
  }
}

void against_all() {
  std::printf(
      "\n| zones | every order | branch and bound | its steps | steps of every order |\n|---|---|---|---|---|\n");
  for (int n : {4, 6, 8}) {
    const InfluenceModel m = line_panel(n);
    const Found all = try_all(m, {}), found = branch_and_bound(m, {}, 50'000'000);
    std::printf("| %d | %.6f | %.6f | %ld | %ld |\n", n, all.cost, found.cost, found.steps, all.steps);
  }
}

void against_chance(int n) {
  const InfluenceModel m = line_panel(n);
  std::vector<int> order(static_cast<std::size_t>(n));
  std::iota(order.begin(), order.end(), 0);
  std::mt19937 random(1);
  std::vector<double> cost;
  for (int i = 0; i < 2000; ++i) {
    std::shuffle(order.begin(), order.end(), random);
    cost.push_back(evaluate(m, {}, order).cost);
  }
  std::sort(cost.begin(), cost.end());
  std::iota(order.begin(), order.end(), 0);
  std::printf("\n%d zones: cost of 2000 orders drawn at random, and of rules\n\n", n);
  const auto line = [&](const char* name, double c) {
    const auto below = std::lower_bound(cost.begin(), cost.end(), c) - cost.begin();
    std::printf("    %-34s %.4f   better than %5.1f %% of the random ones\n", name, c, 100.0 * (2000 - below) / 2000);
  };
  line("searched", search_orders(m, {}, options(), one_by_one, {order}).cost);
  line("centre-out halving, alternating", evaluate(m, {}, both_sides(centre_out_halving(n / 2), n / 2)).cost);
  line("bit reversal, alternating", evaluate(m, {}, both_sides(bit_reversal(n / 2), n / 2)).cost);
  line("jumping, alternating", evaluate(m, {}, both_sides(jumping(n / 2), n / 2)).cost);
  std::vector<int> steady(static_cast<std::size_t>(n / 2));
  std::iota(steady.begin(), steady.end(), 0);
  line("root to tip, alternating", evaluate(m, {}, both_sides(steady, n / 2)).cost);
  line("one side after the other", evaluate(m, {}, order).cost);
  std::printf("\n");
  constexpr int bins = 16;
  for (int b = 0; b < bins; ++b) {
    const double low = cost.front() + (cost.back() - cost.front()) * b / bins;
    const double high = cost.front() + (cost.back() - cost.front()) * (b + 1) / bins;
    const auto count =
        std::count_if(cost.begin(), cost.end(), [&](double c) { return c >= low && (c < high || b == bins - 1); });
    std::printf("    %.3f %s\n", low, std::string(static_cast<std::size_t>(count) / 10, '#').c_str());
  }
}

}  // namespace

int main() {
  gaps();
  against_all();
  against_chance(12);
  against_chance(24);
}
