#include "sequencer/planner/ranking.hpp"

#include "sequencer/choice/mid_work.hpp"
#include "sequencer/plan/accuracy.hpp"

#include <algorithm>
#include <iterator>
#include <limits>

namespace evenpull::inline sequencer {
namespace {

constexpr int width_of_quick_rest = 1, width_of_rest = 4;
constexpr int ease_of_rest = 9;
constexpr double longest_first_run = 0.5 + 1e-9;  // share of a side
constexpr double worth_mirroring = 0.01;          // of score: less is no reason to begin at the other end; judgement
constexpr double rules_of_ranking = 0.75;         // of its time; the mirrors take the rest

RunId coarse_run(const OrderId& order) { return {RunId::Kind::coarse_order, order}; }

void run_coarse(const PlanJob& job, const Model& coarse, std::vector<Order> orders, Span stretch, Ranking& out) {
  std::vector<ReplayJob> jobs;
  for (const Order& o : orders) jobs.push_back({coarse_run(o.id), job.steps_for(coarse.panel, o)});
  job.meter.begin(PlanPart::ranking, static_cast<int>(jobs.size()), stretch);
  std::vector<std::optional<ReplayResult>> results = run_jobs(job, coarse, jobs, out.dropped);
  for (std::size_t i = 0; i < results.size(); ++i)
    if (results[i]) out.ranked.push_back({std::move(orders[i]), std::move(*results[i])});
}

bool is_ranked(const Ranking& r, const OrderId& id) {
  return std::any_of(r.ranked.begin(), r.ranked.end(), [&](const Tried& t) { return t.order.id == id; });
}

bool is_ranked_as(const Ranking& r, const std::vector<int>& zones) {
  return std::any_of(r.ranked.begin(), r.ranked.end(),
                     [&](const Tried& t) { return t.order.by_stage.empty() && t.order.zones == zones; });
}

// Going on: the searched order of what the pass begun still lacks, then the usual order.
void search_rest_of_pass(const PlanJob& job, const Panel& p, std::vector<Order>& orders, Ranking& out) {
  RestFound found;
  if (!one_run(job, {RunId::Kind::search_rest}, out.dropped, [&] {
        found = search_rest(job.the_case, job.done, job.quick() ? width_of_quick_rest : width_of_rest,
                            job.options.parallel);
      }))
    return;
  out.steps_done = note_on_done(found);
  out.waits = found.waits;
  if (found.rest.empty()) return;
  for (Order o : order_families(p)) {
    if (!o.id.is(Family::halving)) continue;
    o.id.family = Family::searched_rest;
    o.rest = found.rest;
    o.ease = ease_of_rest;
    orders.push_back(std::move(o));
  }
}

std::vector<Order> orders_to_rank(const PlanJob& job, const Panel& p, Ranking& out) {
  std::vector<Order> orders = order_families(p, job.done.empty() ? job.last_stage() + 1 : 1);
  if (!job.done.empty()) {
    // The side worked last, once more first, saves a turn-over.
    if (job.options.turn_overs)
      for (const Order& o : order_families(p)) orders.push_back(mirrored(p, o, true, false));
    search_rest_of_pass(job, p, orders, out);
  } else if (!job.options.only_rules) {
    const bool searched = one_run(job, {RunId::Kind::search}, out.dropped, [&] {
      out.finder = std::make_unique<OrderFinder>(job.the_case, job.options.accuracy, job.options.parallel);
      for (Order& o : out.finder->find()) orders.push_back(std::move(o));
    });
    if (!searched) out.finder.reset();
  }
  return orders;
}

int to_come_a_pass(const PlanJob& job, const Tried& t) { return turn_overs_a_pass(t.result.planned, job.last_stage()); }

// Orders with more turn-overs a pass than wanted step back; if all have more, those with the fewest stay. Gives the most
// that an order may have.
int keep_within(const PlanJob& job, int wanted, Ranking& out) {
  int fewest = std::numeric_limits<int>::max();
  for (const Tried& t : out.ranked) fewest = std::min(fewest, to_come_a_pass(job, t));
  if (fewest > wanted) out.turn_overs = {wanted, fewest};
  const int most = std::max(wanted, fewest);
  out.before_limit = out.ranked;
  std::erase_if(out.ranked, [&](const Tried& t) { return to_come_a_pass(job, t) > most; });
  return most;
}

// Loose cloth comes up in the first stage: there sides alternate, unless fewer turn-overs are asked for. Orders with a run
// longer than half a side step back, if any are left without.
void keep_alternating(const PlanJob& job, const Panel& p, Ranking& out) {
  const auto too_long = [&](const Tried& t) { return longest_run(p, t.result.planned, 0) > longest_first_run; };
  if (job.options.turn_overs || !job.done.empty() || std::all_of(out.ranked.begin(), out.ranked.end(), too_long))
    return;
  const auto long_ones =
      std::stable_partition(out.ranked.begin(), out.ranked.end(), [&](const Tried& t) { return !too_long(t); });
  out.set_aside.assign(std::make_move_iterator(long_ones), std::make_move_iterator(out.ranked.end()));
  out.ranked.erase(long_ones, out.ranked.end());
}

// A panel need not be alike on both sides and at both ends: the best order is also tried in the mirror, the other rules
// from the other end. Only what is clearly better than the best as it was stays.
void rank_mirrored(const PlanJob& job, const Model& coarse, int most_turn_overs, Ranking& out) {
  const Prices prices = job.prices();
  const int best = best_of(summaries(out.ranked, coarse.panel), prices);
  const Order order = out.ranked[best].order;
  const OrderResult plain = summarise(out.ranked[best], coarse.panel);
  const std::size_t unmirrored = out.ranked.size();
  std::vector<Order> mirrors = {mirrored(coarse.panel, order, true, false), mirrored(coarse.panel, order, false, true),
                                mirrored(coarse.panel, order, true, true)};
  for (const Order& rule : order_families(coarse.panel))
    if (!(rule.id == order.id) && is_ranked(out, rule.id)) mirrors.push_back(mirrored(coarse.panel, rule, false, true));
  std::erase_if(mirrors, [&](const Order& m) { return is_ranked_as(out, m.zones); });
  run_coarse(job, coarse, std::move(mirrors), {rules_of_ranking, 1}, out);
  for (std::size_t i = out.ranked.size(); i-- > unmirrored;)
    if (to_come_a_pass(job, out.ranked[i]) > most_turn_overs ||
        !better_by(summarise(out.ranked[i], coarse.panel), plain, prices, worth_mirroring))
      out.ranked.erase(out.ranked.begin() + static_cast<std::ptrdiff_t>(i));
  if (!out.before_limit.empty())
    out.before_limit.insert(out.before_limit.end(), out.ranked.begin() + static_cast<std::ptrdiff_t>(unmirrored),
                            out.ranked.end());
}

}  // namespace

void Ranking::drop(const OrderId& id) {
  const auto same = [&](const Tried& t) { return t.order.id == id; };
  std::erase_if(ranked, same);
  std::erase_if(before_limit, same);
  std::erase_if(set_aside, same);
  std::erase_if(met, same);
}

std::vector<OrderResult> summaries(const std::vector<Tried>& tried, const Panel& p) {
  std::vector<OrderResult> out;
  for (const Tried& t : tried) out.push_back(summarise(t, p));
  return out;
}

Ranking rank_orders(const PlanJob& job) {
  Ranking out;
  const Model coarse(job.the_case, ranking_mesh(job.options.accuracy));
  job.meter.begin(PlanPart::search, 1);
  std::vector<Order> orders = orders_to_rank(job, coarse.panel, out);
  run_coarse(job, coarse, std::move(orders), {0, rules_of_ranking}, out);
  if (out.ranked.empty()) throw *out.dropped.first;
  int most = std::numeric_limits<int>::max();
  if (job.options.turn_overs) most = keep_within(job, *job.options.turn_overs, out);
  keep_alternating(job, coarse.panel, out);
  rank_mirrored(job, coarse, most, out);
  return out;
}

}  // namespace evenpull::inline sequencer
