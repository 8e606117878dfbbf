#include "sequencer/search.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenpull {
namespace {

// What a prefix has cost so far.
struct Cost {
  double use = 0;         // worst of the limits on the way
  double difference = 0;  // N/m, worst spanwise pull difference
};

double use_on_the_way(const Model& m, const Readings& r) {
  StageJudge judge(m, 0);
  judge.take(r, Moment::on_the_way);
  return history_use(judge.limits(), false);
}

// Uses closer than this share count as equal and the pull difference decides.
constexpr double close_share = 0.02;

bool cheaper(const Cost& a, const Cost& b) {
  if (std::abs(a.use - b.use) > close_share * std::max(a.use, b.use)) return a.use < b.use;
  return a.difference < b.difference;
}

struct Try {
  Covering state;
  Cost cost;
  bool buckled = false;
};

Try work_block(const Model& m, const Covering& from, const Cost& so_far, int block) {
  const Stage& stage = m.the_case.stages.front();
  Ironing ironing(m);
  Try t{from, so_far, false};
  for (int z : zones_of_blocks(m.panel, {block})) {
    const std::string label = "search, " + m.panel.zones[z].label;
    if (ironing.iron(t.state, z, stage.temperature, stage.doses.front(), label).outcome == Outcome::buckled) {
      t.buckled = true;
      return t;
    }
    const Readings r = read_off(m, t.state, ironing.accuracy().smoothing);
    t.cost.use = std::max(t.cost.use, use_on_the_way(m, r));
    t.cost.difference = std::max(t.cost.difference, std::abs(r.difference_span.value));
  }
  return t;
}

// Lays block after block, each time the cheapest of those left.
std::vector<int> lay_greedily(const Model& m, const ParallelFor& parallel) {
  std::vector<int> left, laid;
  for (int b = 0; b < 2 * m.panel.bays; ++b) left.push_back(b);
  Try now{Ironing(m).begin(), {}, false};
  while (!left.empty()) {
    std::vector<Try> tries(left.size());
    parallel(static_cast<int>(left.size()), [&](int i) { tries[i] = work_block(m, now.state, now.cost, left[i]); });
    int best = 0;
    for (int i = 1; i < static_cast<int>(left.size()); ++i)
      if (tries[best].buckled || (!tries[i].buckled && cheaper(tries[i].cost, tries[best].cost))) best = i;
    if (tries[best].buckled) {  // nothing stands: the rest in any order
      laid.insert(laid.end(), left.begin(), left.end());
      return laid;
    }
    now = std::move(tries[best]);
    laid.push_back(left[best]);
    left.erase(left.begin() + best);
  }
  return laid;
}

OrderResult first_stage(const Model& m, const std::vector<int>& blocks) {
  Tried t;
  t.order.zones = zones_of_blocks(m.panel, blocks);
  std::vector<Step> steps = steps_of(m.the_case, m.panel, t.order.zones);
  std::erase_if(steps, [](const Step& s) { return s.stage > 0; });
  t.result = replay(m, steps, {});
  return summarise_up_to(t, m.panel, 0);
}

}  // namespace

Order search_order(const Model& m, const SearchWish& wish) {
  std::vector<int> best = lay_greedily(m, wish.parallel);
  const bool count = !m.the_case.both_sides_reachable;
  OrderResult best_result = first_stage(m, best);
  for (int round = 0; round < wish.rounds; ++round) {
    std::vector<std::vector<int>> neighbours;
    for (std::size_t i = 0; i + 1 < best.size(); ++i) {
      neighbours.push_back(best);
      std::swap(neighbours.back()[i], neighbours.back()[i + 1]);
    }
    std::vector<OrderResult> results(neighbours.size());
    wish.parallel(static_cast<int>(neighbours.size()), [&](int i) { results[i] = first_stage(m, neighbours[i]); });
    const int winner = best_of(results, count);
    if (!clearly_better(results[winner], best_result, count)) break;
    best = neighbours[winner];
    best_result = results[winner];
  }
  Order order;
  order.name = "searched";
  order.rule = "No rule: follow the numbers.";
  order.zones = zones_of_blocks(m.panel, best);
  order.ease = 9;
  return order;
}

}  // namespace evenpull
