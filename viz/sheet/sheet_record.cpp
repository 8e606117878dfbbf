#include "viz/sheet/sheet_flow.hpp"
#include "viz/sheet/sheet_pages.hpp"
#include "viz/words/heat_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/note_words.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/record_words.hpp"
#include "viz/words/sure_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {

namespace {

void add_limits(Flow& flow, const Plan& plan) {
  // Up to the first stage that is not safe: what lies beyond says nothing that anybody will work by.
  const int last = plan.ceiling.value_or(-1) + 1;
  auto readings = plan.limits;
  readings.erase(
      std::remove_if(readings.begin(), readings.end(), [&](const LimitReading& r) { return r.stage > last; }),
      readings.end());
  std::stable_sort(readings.begin(), readings.end(),
                   [](const LimitReading& a, const LimitReading& b) { return a.stage < b.stage; });
  // Of stages on the way to the answer what comes closest; all of it is in plan.json.
  const int whole_from = plan.ceiling.value_or(0);
  std::vector<LimitReading> shown;
  for (const LimitReading& r : readings) {
    if (r.stage >= whole_from || shown.empty() || shown.back().stage != r.stage) shown.push_back(r);
    else if (kind_of(r.limit) != LimitKind::finish && r.use > shown.back().use) shown.back() = r;
  }
  readings = std::move(shown);
  std::vector<TableRow> rows;
  const bool judged = std::any_of(readings.begin(), readings.end(), [](const LimitReading& r) { return r.judgement; });
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const auto& r = readings[i];
    if (i == 0 || r.stage != readings[i - 1].stage)
      rows.push_back({{degrees_f(plan.the_case.stages[r.stage].temperature)}, true, i > 0});
    // Waves are told, and are no limit.
    const bool over = r.limit != Limit::waves &&
                      (r.gave_way || std::max(r.use, r.use_of_worse_joints) + r.use_plus_minus > 1);
    rows.push_back({{std::string(over ? "OVER: " : "") + limit_text(r),
                     place_text(plan.panel, r.where) + ", " + moment_text(r.when), limit_value(r),
                     limit_allowed(r) + (judged && !r.judgement ? " stated" : ""), use_text(r)},
                    over,
                    false});
  }
  flow.table(
      std::string("Limits") + (judged ? ": allowed values are our engineering judgement unless marked stated" : ""),
      {{"limit", 0.17}, {"where, when", 0.345}, {"value", 0.19}, {"allowed (most)", 0.18}, {"use", 0.115}}, rows);
}

// The chosen one, and of the others those that hold most for the least use.
std::vector<OrderResult> orders_shown(const Plan& plan) {
  constexpr std::size_t most = 6;
  std::vector<OrderResult> orders = plan.orders;
  std::stable_sort(orders.begin(), orders.end(), [](const OrderResult& a, const OrderResult& b) {
    if (a.chosen != b.chosen) return a.chosen;
    if (a.model != b.model) return a.model > b.model;  // what a finer mesh says first
    if (a.stages_passed != b.stages_passed) return a.stages_passed > b.stages_passed;
    if (a.gave_way != b.gave_way) return b.gave_way;
    return a.worst_use < b.worst_use;
  });
  if (orders.size() > most) orders.resize(most);
  return orders;
}

void add_orders(Flow& flow, const Plan& plan) {
  std::vector<TableRow> rows;
  const std::vector<OrderResult> orders = orders_shown(plan);
  for (const auto& o : orders) {
    // Where the frame gave way the use stands for "too much", and what was met before is no measure of the order.
    const auto unless_it_gave_way = [&](const std::string& number) { return o.gave_way ? "–" : number; };
    rows.push_back(
        {{(o.chosen && plan.ceiling ? "CHOSEN: " : "") + order_name(o.order), model_text(o.model),
          std::to_string(o.stages_passed), o.gave_way ? "gave way" : fmt::format("{:.2f}", o.worst_use),
          o.unevenness_final ? percent_text(*o.unevenness_final) : "–",
          unless_it_gave_way(fmt::format("{:.1f} / {:.1f}", pounds_per_inch(o.worst_pull_difference_chordwise),
                                         pounds_per_inch(o.worst_pull_difference_spanwise))),
          unless_it_gave_way(fmt::format("{:.2f}", inches(o.worst_slip))),
          unless_it_gave_way(angle_text(o.worst_twist)), std::to_string(o.turn_overs)},
         o.chosen && plan.ceiling,
         false});
  }
  const std::size_t more = plan.orders.size() - orders.size();
  flow.table(more == 0 ? "Orders compared" : fmt::format("Orders compared ({} more in plan.json)", more),
             {{"order", 0.32},
              {"model", 0.08},
              {"stages held", 0.08},
              {"worst use", 0.075},
              {"uneven", 0.085},
              {"pull difference, lb/in chord / span", 0.175},
              {"slip, in", 0.07},
              {"twist", 0.075},
              {"turn-\novers", 0.08}},
             rows);
}

}  // namespace

void draw_record_pages(Sheet& sheet) {
  const Plan& plan = sheet.plan;
  Flow flow(sheet, "Record: the numbers behind the plan");
  add_limits(flow, plan);
  add_orders(flow, plan);
  flow.lists({{"Notes", note_sentences(plan)},
              {"The iron: dwell and passes", heat_sentences(plan)},
              {"How sure: chances", sure_sentences(plan)},
              {bounds_title(plan), bounds_in_words(plan)},
              {"What it rests on", assumptions(plan)},
              {"Defaults used: not stated in the case (reasons in plan.json)", defaults_by_table(plan)},
              {"What it does not cover", limits_of_validity(plan)},
              {"How it was computed", how_computed(plan)}});
  flow.notebook("What you saw and would do otherwise next time");
}

}  // namespace evenpull::viz
