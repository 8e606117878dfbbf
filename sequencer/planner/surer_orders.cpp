#include "sequencer/planner/surer_orders.hpp"

#include "sequencer/planner/finalists.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "sequencer/sure/scenario_runs.hpp"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace evenpull::inline sequencer {
namespace {

// Each costs as much as the plan so far had after its ranking.
constexpr int most_tries = 2;
// What another order must have over the best one, on the same scenarios, to be worth running in full: judgement.
constexpr double surer_by = 0.02, less_use_by = 0.02;

bool lacks(const Verdict& v, int stage, Lacking what) {
  const std::vector<Lacking>& l = v.safety[static_cast<std::size_t>(stage)].lacking;
  return std::find(l.begin(), l.end(), what) != l.end();
}

// Which of those that met is surest of a stage; none if the best one is.
std::optional<Order> surest(const PlanJob& job, const PlanRuns& runs, int stage) {
  const OrderId& best = runs.full[runs.best].order.id;
  const auto was_run = [&](const OrderId& id) {
    return std::any_of(runs.full.begin(), runs.full.end(), [&](const Tried& t) { return t.order.id == id; });
  };
  const auto shape = [&](const Tried& t) {
    return shape_of_order(job.the_case, t.result.planned, t.result.stages, stage, job.the_case.wanted.scenarios,
                          job.options.parallel, job.options.kept)
        .share();
  };
  const std::vector<Tried>& met = runs.ranking.met;
  const auto own = std::find_if(met.begin(), met.end(), [&](const Tried& t) { return t.order.id == best; });
  if (own == met.end()) return {};
  const bool of_shape = lacks(runs.verdict, stage, Lacking::shape),
             of_damage = lacks(runs.verdict, stage, Lacking::damage);
  const double own_shape = of_shape ? shape(*own) : 0, own_use = worst_use_up_to(own->result.stages, stage, false);
  std::optional<Order> found;
  double most = 0;
  for (const Tried& t : met) {
    if (was_run(t.order.id) || may_hold_in_full(t) <= stage) continue;
    const double less = 1 - worst_use_up_to(t.result.stages, stage, false) / own_use;
    if (of_damage && less < less_use_by) continue;
    const double more = of_shape ? shape(t) - own_shape : less;
    if (more < (of_shape ? surer_by : less_use_by) || more <= most) continue;
    most = more, found = t.order;
  }
  return found;
}

}  // namespace

void try_surer_orders(const PlanJob& job, const Model& full, PlanRuns& runs) {
  // Readings are judged with the order that they were taken of.
  if (job.quick() || !job.options.measured.empty()) return;
  for (int tries = 0; tries < most_tries; ++tries) {
    const std::optional<int> stage = held_back_by_chance(runs.verdict);
    if (!stage) break;
    job.meter.on_another_order();
    const std::optional<Order> order = surest(job, runs, *stage);
    if (!order) break;
    StudyRuns study;
    for (Tried& t : run_with_study(job, full, *order, runs.ranking, study)) {
      Verdict verdict = judge_order(job, full.panel, t, std::move(study));
      if (verdict.ceiling() > runs.verdict.ceiling()) {
        runs.verdict = std::move(verdict);
        runs.best = runs.full.size();
      }
      runs.full.push_back(std::move(t));
    }
  }
  job.meter.back_to_the_plan();
}

}  // namespace evenpull::inline sequencer
