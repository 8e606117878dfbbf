#include "sequencer/choice/choice.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

namespace evenpull::inline sequencer {
namespace {

// "Within 2 % of each other" for uses (of the limit, where limits are compared one by one); the absolute steps are what a bench can tell apart.
constexpr double close_share = 0.02;
constexpr double close_unevenness = 0.02;  // of the mean pull
constexpr double close_pull = 20;          // N/m, about 2 % of the pull after the last stage
constexpr double close_slip = 0.1e-3;      // m
constexpr double close_turn_overs = 0.1;   // share: fewer than that are no reason to give up a rule

// -1: a smaller, +1: b smaller, 0: close.
int compare(double a, double b, double close) { return std::abs(a - b) <= close ? 0 : a < b ? -1 : 1; }

// Limits less than half taken up are no reason to prefer an order that is harder to follow.
constexpr double worth_comparing = 0.5;

int compare_uses(const std::vector<double>& a, const std::vector<double>& b) {
  for (std::size_t i = 0; i < std::min(a.size(), b.size()) && std::max(a[i], b[i]) >= worth_comparing; ++i)
    if (const int c = compare(a[i], b[i], close_share); c != 0) return c;
  return 0;
}

// Worst use of each limit over the stages up to `last`, largest first; unevenness of the last stage alone.
std::vector<double> uses_up_to(const std::vector<StageVerdict>& stages, int last) {
  std::map<Limit, double> worst;
  for (const StageVerdict& v : stages)
    for (const LimitReading& l : v.limits)
      if (v.stage <= last && (l.limit != Limit::unevenness || v.stage == last))
        worst[l.limit] = std::max(worst[l.limit], l.use);
  std::vector<double> uses;
  for (const auto& [limit, use] : worst) uses.push_back(use);
  std::sort(uses.begin(), uses.end(), std::greater<>());
  return uses;
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
  return o;
}

OrderResult summarise(const Tried& t, const Panel& p) {
  return summarise_up_to(t, p, stage_ceiling(t.result.stages, false).value_or(0));
}

bool clearly_better(const OrderResult& a, const OrderResult& b, bool turn_overs_count) {
  if (a.stages_passed != b.stages_passed) return a.stages_passed > b.stages_passed;
  // What was computed of an order that gave way is less than the whole, so its numbers do not compare.
  if (a.gave_way != b.gave_way) return b.gave_way;
  const double pull_a = std::max(a.worst_pull_difference_chordwise, a.worst_pull_difference_spanwise);
  const double pull_b = std::max(b.worst_pull_difference_chordwise, b.worst_pull_difference_spanwise);
  const int criteria[] = {
      compare(a.worst_use, b.worst_use, close_share * std::max(a.worst_use, b.worst_use)),
      compare_uses(a.uses, b.uses),
      compare(a.unevenness_final.value_or(0), b.unevenness_final.value_or(0), close_unevenness),
      compare(pull_a, pull_b, std::max(close_pull, close_share * std::max(pull_a, pull_b))),
      compare(a.worst_slip, b.worst_slip, close_slip),
      turn_overs_count ? compare(a.turn_overs, b.turn_overs, close_turn_overs * std::max(a.turn_overs, b.turn_overs))
                       : 0};
  for (int c : criteria)
    if (c != 0) return c < 0;
  return false;
}

int best_of(const std::vector<OrderResult>& orders, bool turn_overs_count) {
  int best = 0;
  for (int i = 1; i < static_cast<int>(orders.size()); ++i)
    if (clearly_better(orders[i], orders[best], turn_overs_count)) best = i;
  return best;
}

}  // namespace evenpull::inline sequencer
