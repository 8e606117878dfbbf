#include "sequencer/planner/finalists.hpp"

#include "sequencer/plan/accuracy.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "sequencer/sure/scenario_runs.hpp"

#include <algorithm>
#include <numeric>
#include <optional>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

// Always among them: a rule that most would follow, the public handbook's jumping, and what keeps loose cloth from sliding without
// turning over as often in the later stages.
constexpr Family usual_orders[] = {Family::halving, Family::jumping, Family::strips_then_bays};

// The coarse mesh may be off by as much as is left to the limit.
constexpr double hangs_by_a_hair = 0.9;

// The ranking's mesh is coarse: what it holds for nearly as good goes on too.
constexpr int best_run = 3;

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
  for (int k = 0; k < best_run && !left.empty(); ++k) {
    const int best = best_of(left, job.prices());
    choose(index[best]);
    left.erase(left.begin() + best);
    index.erase(index.begin() + best);
  }
  if (!job.quick()) {
    if (const auto i = strictest(all)) choose(*i);
    // Where those that save turn-overs let the cloth slide too often.
    choose(best_of(all, without_turn_overs(job.prices())));
    for (std::size_t i = 0; i < ranked.size(); ++i)
      if (is_usual(ranked[i].order)) choose(static_cast<int>(i));
  }
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

namespace {

ReplayJob in_full(const PlanJob& job, const Model& full, const Order& o) {
  return {{RunId::Kind::full_order, o.id}, job.steps_for(full.panel, o), true};
}

// Each order on a mesh; those that find no equilibrium there leave the ranking.
std::vector<Tried> run_on(const PlanJob& job, const Model& m, OrderModel model, const std::vector<Order>& orders,
                          Ranking& ranking) {
  const bool full = model == OrderModel::full;
  std::vector<ReplayJob> jobs;
  for (const Order& o : orders)
    jobs.push_back(full ? in_full(job, m, o)
                        : ReplayJob{{RunId::Kind::between_order, o.id}, job.steps_for(m.panel, o), false});
  std::vector<std::optional<ReplayResult>> results = run_jobs(job, m, jobs, ranking.dropped);
  std::vector<Tried> tried;
  for (std::size_t i = 0; i < results.size(); ++i) {
    if (results[i]) tried.push_back({orders[i], std::move(*results[i]), model});
    else ranking.drop(orders[i].id);
  }
  return tried;
}

// Certificates make a run about so many times as long (bench/RECORD.md).
constexpr double cost_of_certified = 2;

}  // namespace

// The longest run first.
std::vector<Tried> run_with_study(const PlanJob& job, const Model& full, const Order& order, Ranking& ranking,
                                  StudyRuns& study) {
  const ReplayJob own = in_full(job, full, order);
  study = study_to_run(job, full.panel, own.steps);
  const int runs = static_cast<int>(study.jobs.size()), at = std::min(runs, 1);
  std::vector<double> costs;
  for (const StudyJob& j : study.jobs) costs.push_back(j.cost);
  costs.insert(costs.begin() + at, cost_of_certified);
  job.meter.begin(PlanPart::in_full, std::move(costs));
  std::vector<std::optional<ReplayResult>> result(1);
  TrialRuns trial(1, job.options.before_run);
  job.options.parallel(runs + 1, [&](int i) {
    if (i == at) run_job(job, full, own, 0, i, trial, result);
    else run_study(job, full.panel, study, i < at ? i : i - 1, i);
  });
  ranking.dropped.add(trial);
  if (!result[0]) {
    ranking.drop(order.id);
    return {};
  }
  std::vector<Tried> tried;
  tried.push_back({order, std::move(*result[0]), OrderModel::full});
  return tried;
}

namespace {

// By so much a use may come out lower in full than on the mesh that orders met on (bench/RECORD.md).
constexpr double off_by_ranking = 1.1, off_by_half = 1.02;

// How many stages an order may hold in full.
int may_hold(const Tried& t, double off) {
  std::vector<StageVerdict> stages = t.result.stages;
  for (StageVerdict& v : stages)
    for (LimitReading& l : v.limits) l.use /= off;
  const std::optional<int> ceiling = stage_ceiling(stages, false);
  return ceiling ? *ceiling + 1 : 0;
}

}  // namespace

int may_hold_in_full(const Tried& met) { return may_hold(met, off_by_half); }

namespace {

// Scenarios by which orders are told apart: enough to see that one which saves turn-overs lets the cloth slide.
constexpr int few_scenarios = 32;

// The best score among those that keep the shape as surely as is asked for; where none does, the surest. Never past that for fewer
// turn-overs: each is asked in turn, the best score first, on the same scenarios.
std::size_t best_that_keeps_shape(const PlanJob& job, const Panel& p, const std::vector<Tried>& left,
                                  std::optional<note::KeepsShapeLess>& passed_over) {
  std::vector<OrderResult> promised = summaries(left, p);
  std::vector<std::size_t> places(left.size());
  std::iota(places.begin(), places.end(), 0);
  std::stable_sort(places.begin(), places.end(),
                   [&](std::size_t a, std::size_t b) { return better_by(promised[a], promised[b], job.prices(), 0); });
  const Wanted& wanted = job.the_case.wanted;
  if (job.quick() || wanted.scenarios <= 0) return places.front();
  const double enough = 0.5 * (1 + wanted.confidence);  // so few must show more than is asked for, for many to show it
  std::size_t surest = places.front();
  double most = -1;
  note::KeepsShapeLess best;
  for (const std::size_t i : places) {
    if (promised[i].stages_passed < promised[places.front()].stages_passed) break;
    const ReplayResult& r = left[i].result;
    const int last = std::max(0, promised[i].stages_passed - 1);
    const Chance shape = shape_of_order(job.the_case, r.planned, r.stages, last,
                                        std::min(few_scenarios, wanted.scenarios), job.options.parallel,
                                        job.options.kept);
    if (i == places.front()) best = {left[i].order.id, 0, 0, shape.hits, shape.of};
    if (shape.share() > most) most = shape.share(), surest = i;
    if (most >= enough) break;
  }
  if (surest != places.front() && !passed_over) passed_over = best;
  return surest;
}

// Orders run in full, the best among them and the runs behind its error bars.
struct InFull {
  Finalists& found;
  StudyRuns& study;
  int stages = -1;  // that the best holds

  void take(Tried t, StudyRuns with, int holds) {
    if (holds > stages) stages = holds, found.best = found.full.size(), study = std::move(with);
    found.full.push_back(std::move(t));
  }
};

// The best of `left`, in full; another only where a stage hangs on it: it may hold one that those run in full lost.
void best_in_full(const PlanJob& job, const Model& full, std::vector<Tried> left, double off, Ranking& ranking,
                  InFull& in_full) {
  while (true) {
    std::erase_if(left, [&](const Tried& t) { return may_hold(t, off) <= in_full.stages; });
    if (left.empty()) return;
    const std::size_t best = best_that_keeps_shape(job, full.panel, left, ranking.passed_over);
    const Order order = left[best].order;
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(best));
    StudyRuns study;
    for (Tried& t : run_with_study(job, full, order, ranking, study)) {
      const int holds = summarise(t, full.panel).stages_passed;
      in_full.take(std::move(t), std::move(study), holds);
    }
  }
}

// In the order of their ease, as they are listed.
void sort_by_ease(Finalists& f) {
  const OrderId best = f.full[f.best].order.id;
  std::stable_sort(f.full.begin(), f.full.end(),
                   [](const Tried& a, const Tried& b) { return a.order.ease < b.order.ease; });
  const auto at = std::find_if(f.full.begin(), f.full.end(), [&](const Tried& t) { return t.order.id == best; });
  f.best = static_cast<std::size_t>(at - f.full.begin());
}

}  // namespace

Finalists run_finalists(const PlanJob& job, const Model& full, Ranking& ranking, StudyRuns& study) {
  Finalists out;
  InFull in_full{out, study};
  const std::optional<MeshOptions> mesh = half_mesh(job.the_case, job.options.accuracy);
  while (out.full.empty()) {
    if (ranking.ranked.empty()) ranking.ranked = std::exchange(ranking.set_aside, {});
    if (ranking.ranked.empty()) throw *ranking.dropped.first;
    std::vector<Tried> as_ranked;
    std::vector<Order> orders;
    for (const int i : choose_finalists(job, full.panel, ranking.ranked)) {
      as_ranked.push_back(ranking.ranked[i]);
      orders.push_back(ranking.ranked[i].order);
    }
    job.meter.begin(mesh ? PlanPart::finalists : PlanPart::in_full, static_cast<int>(orders.size()));
    if (mesh) {
      ranking.met = run_on(job, Model(job.the_case, *mesh), OrderModel::between, orders, ranking);
      best_in_full(job, full, ranking.met, off_by_half, ranking, in_full);
    } else if (job.quick()) {
      best_in_full(job, full, std::move(as_ranked), off_by_ranking, ranking, in_full);
    } else {
      out.full = run_on(job, full, OrderModel::full, orders, ranking);
      if (out.full.empty()) continue;
      out.best = best_that_keeps_shape(job, full.panel, out.full, ranking.passed_over);
      in_full.stages = summarise(out.full[out.best], full.panel).stages_passed;
    }
  }
  // Alternating is a rule of thumb; a stage is worth more.
  std::vector<Tried> aside = ranking.set_aside;
  std::erase_if(aside, [&](const Tried& t) { return may_hold(t, off_by_ranking) <= in_full.stages; });
  if (mesh && !aside.empty()) {
    std::vector<Order> orders;
    for (const Tried& t : aside) orders.push_back(t.order);
    job.meter.begin(PlanPart::finalists, static_cast<int>(orders.size()));
    aside = run_on(job, Model(job.the_case, *mesh), OrderModel::between, orders, ranking);
  }
  best_in_full(job, full, std::move(aside), mesh ? off_by_half : off_by_ranking, ranking, in_full);
  if (job.quick()) out.best = static_cast<std::size_t>(best_of(summaries(out.full, full.panel), job.prices()));
  sort_by_ease(out);
  return out;
}

}  // namespace evenpull::inline sequencer
