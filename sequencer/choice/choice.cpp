#include "sequencer/choice/choice.hpp"

#include <algorithm>
#include <functional>
#include <map>
#include <set>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

constexpr double same_score = 1e-9;  // rounding; of equals the first wins

// Worst use of each limit over the stages up to `last`, largest first; unevenness of the last stage alone, waves not.
std::vector<double> uses_up_to(const std::vector<StageVerdict>& stages, int last) {
  std::map<Limit, double> worst;
  for (const StageVerdict& v : stages)
    for (const LimitReading& l : v.limits)
      if (v.stage <= last && l.limit != Limit::waves && (l.limit != Limit::unevenness || v.stage == last))
        worst[l.limit] = std::max(worst[l.limit], l.use);
  std::vector<double> uses;
  for (const auto& [limit, use] : worst) uses.push_back(use);
  std::sort(uses.begin(), uses.end(), std::greater<>());
  return uses;
}

int passes_to_work(const std::vector<Step>& steps, int last) {
  std::set<std::pair<int, int>> passes;
  for (const Step& s : steps)
    if (s.stage <= last && !s.done) passes.emplace(s.stage, s.pass);
  return static_cast<int>(passes.size());
}

}  // namespace

OrderResult summarise_up_to(const Tried& t, const Panel& p, int last) {
  OrderResult o;
  o.order = t.order.id;
  o.model = t.model;
  // Without error bars: only the chosen order has them, and orders must be compared by the same measure.
  const std::optional<int> ceiling = stage_ceiling(t.result.stages, false);
  o.stages_passed = ceiling ? *ceiling + 1 : 0;
  o.worst_use = worst_use_up_to(t.result.stages, last, false);
  o.uses = uses_up_to(t.result.stages, last);
  for (const StageVerdict& v : t.result.stages) {
    if (v.stage > last) break;
    for (const LimitReading& l : v.limits)
      if (l.limit == Limit::unevenness) o.unevenness_final = l.value;
    o.worst_pull_difference_chordwise = std::max(o.worst_pull_difference_chordwise, v.worst_difference_chord);
    o.worst_pull_difference_spanwise = std::max(o.worst_pull_difference_spanwise, v.worst_difference_span);
    o.worst_slip = std::max(o.worst_slip, v.worst_slip);
    o.worst_twist = std::max(o.worst_twist, v.worst_twist);
    if (v.summary.settled)
      o.pull_spread_along_span = std::max(o.pull_spread_along_span.value_or(0), v.spread_along_span);
  }
  o.gave_way = !t.result.stages.empty() && t.result.stages.back().buckled && t.result.stages.back().stage <= last;
  // Of the order as planned: one that gives way early would look as if it took few.
  o.turn_overs = turn_overs(p, t.result.planned, last);
  o.turn_overs_a_pass = turn_overs_a_pass(t.result.planned, last);
  o.passes = passes_to_work(t.result.planned, last);
  return o;
}

OrderResult summarise(const Tried& t, const Panel& p) {
  return summarise_up_to(t, p, stage_ceiling(t.result.stages, false).value_or(0));
}

double score_of(const OrderResult& o, const Prices& prices) {
  Tally t;
  t.use = o.worst_use;
  t.difference = std::max(o.worst_pull_difference_chordwise, o.worst_pull_difference_spanwise);
  t.unevenness = o.unevenness_final.value_or(0);
  t.turn_overs = o.turn_overs;
  const double hard_to_follow = has_rule(o.order.family) ? 0 : prices.no_rule * o.passes;
  return cost_of(t, prices) + hard_to_follow;
}

bool better_by(const OrderResult& a, const OrderResult& b, const Prices& prices, double least) {
  if (a.stages_passed != b.stages_passed) return a.stages_passed > b.stages_passed;
  // What was computed of an order that gave way is less than the whole, so its numbers do not compare.
  if (a.gave_way != b.gave_way) return b.gave_way;
  return score_of(a, prices) < score_of(b, prices) - least;
}

int best_of(const std::vector<OrderResult>& orders, const Prices& prices) {
  int best = 0;
  for (int i = 1; i < static_cast<int>(orders.size()); ++i)
    if (better_by(orders[i], orders[best], prices, same_score)) best = i;
  return best;
}

}  // namespace evenpull::inline sequencer
