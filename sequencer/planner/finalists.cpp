#include "sequencer/planner/finalists.hpp"

#include <algorithm>
#include <numeric>
#include <optional>

namespace evenpull::inline sequencer {
namespace {

// Always run in full beside the best two: a rule that most would follow, and the public handbook's jumping.
constexpr Family usual_orders[] = {Family::halving, Family::jumping};

// The coarse mesh may be off by as much as is left to the limit.
constexpr double hangs_by_a_hair = 0.9;

// The quick ranking is the coarser one: what it holds for nearly as good goes on too.
constexpr int best_run_quick = 3, best_run = 2;

// Where a stage hangs by a hair the easiest of nearly equal orders may lose it: then the one with the least use goes on too.
std::optional<int> strictest(const std::vector<OrderResult>& all) {
  const auto best = std::min_element(all.begin(), all.end(), [](const OrderResult& a, const OrderResult& b) {
    return a.stages_passed != b.stages_passed ? a.stages_passed > b.stages_passed : a.worst_use < b.worst_use;
  });
  if (best == all.end() || best->worst_use < hangs_by_a_hair) return {};
  return static_cast<int>(best - all.begin());
}

bool is_usual(const Order& o) {
  return std::any_of(std::begin(usual_orders), std::end(usual_orders), [&](Family f) { return o.id.is(f); });
}

}  // namespace

std::vector<int> choose_finalists(const PlanJob& job, const Panel& p, const std::vector<Tried>& ranked) {
  const std::vector<OrderResult> all = summaries(ranked, p);
  std::vector<OrderResult> left = all;
  std::vector<int> index(ranked.size());
  std::iota(index.begin(), index.end(), 0);
  std::vector<int> chosen;
  const auto choose = [&](int i) {
    if (std::find(chosen.begin(), chosen.end(), i) == chosen.end()) chosen.push_back(i);
  };
  const int wanted = job.quick() ? best_run_quick : best_run;
  for (int k = 0; k < wanted && !left.empty(); ++k) {
    const int best = best_of(left, job.turn_overs_count());
    choose(index[best]);
    left.erase(left.begin() + best);
    index.erase(index.begin() + best);
  }
  if (!job.quick()) {
    if (const auto i = strictest(all)) choose(*i);
    for (std::size_t i = 0; i < ranked.size(); ++i)
      if (is_usual(ranked[i].order)) choose(static_cast<int>(i));
  }
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

std::vector<Tried> run_finalists(const PlanJob& job, const Model& full, Ranking& ranking) {
  std::vector<Tried> tried;
  while (tried.empty()) {
    if (ranking.ranked.empty()) throw *ranking.dropped.first;
    std::vector<ReplayJob> jobs;
    std::vector<Order> orders;
    for (const int i : choose_finalists(job, full.panel, ranking.ranked)) {
      orders.push_back(ranking.ranked[i].order);
      jobs.push_back({{RunId::Kind::full_order, orders.back().id}, job.steps_for(full.panel, orders.back()), true});
    }
    job.meter.span(0.3, 0.6, static_cast<int>(jobs.size()), PlanPart::finalists);
    std::vector<std::optional<ReplayResult>> results = run_jobs(job, full, jobs, ranking.dropped);
    for (std::size_t i = 0; i < results.size(); ++i) {
      if (results[i]) tried.push_back({std::move(orders[i]), std::move(*results[i]), true});
      else ranking.drop(orders[i].id);
    }
  }
  return tried;
}

}  // namespace evenpull::inline sequencer
