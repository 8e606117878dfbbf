#include "app/output/search_json.hpp"

#include "app/output/json_units.hpp"
#include "app/text/units.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/search_words.hpp"

namespace evenpull {
namespace {

Json stage_search(const Plan& p, const StageSearch& s) {
  return {{"stage_degF", json_number(stage_degF(p, s.stage), "search.stage_degF")},
          {"model", viz::search_model_text(s.model)},
          {"pieces", s.things},
          {"pieces_are", s.by_zones ? "zones" : "bays of one side"},
          {"cost", json_number(s.cost, "search.cost")},
          {"least_cost", json_number(s.least_cost, "search.least_cost")},
          {"gap_percent", json_number(s.gap() * percent, "search.gap")},
          {"worst_use", json_number(s.use, "search.use")},
          {"least_worst_use", json_number(s.least_use, "search.least_use")},
          {"exact", s.exact},
          {"measured_again", s.measured_again},
          {"model_steps", s.steps},
          {"model_steps_unsolved", s.unsolved},
          {"error_against_full_model",
           {{"use", json_number(s.error.use, "search.error.use")},
            {"pull_difference_N_per_m", json_number(s.error.difference, "search.error.difference")},
            {"slip_mm", json_number(s.error.slip * mm, "search.error.slip")}}}};
}

}  // namespace

Json search_json(const Plan& p) {
  auto stages = Json::array(), front = Json::array(), passes = Json::array();
  for (const auto& s : p.searched) stages.push_back(stage_search(p, s));
  for (const auto& f : p.trade_offs)
    front.push_back({{"order", viz::order_name(f.order)},
                     {"turn_overs_a_pass", f.turn_overs_a_pass},
                     {"worst_use", json_number(f.use, "search.front.use")},
                     {"worst_pull_difference_N_per_m", json_number(f.difference, "search.front.difference")},
                     {"chosen", f.chosen}});
  for (const auto& t : p.pass_trials) {
    auto doses = Json::array();
    for (double d : t.doses) doses.push_back(json_number(d, "search.passes_tried.doses"));
    passes.push_back({{"stage_degF", json_number(stage_degF(p, t.stage), "search.passes_tried.stage_degF")},
                      {"doses", doses},
                      {"stages_passed", t.stages_passed},
                      {"worst_use", json_number(t.use, "search.passes_tried.use")},
                      {"worst_pull_difference_N_per_m", json_number(t.difference, "search.passes_tried.difference")},
                      {"worst_slip_mm", json_number(t.slip * mm, "search.passes_tried.slip")},
                      {"cost", json_number(t.cost, "search.passes_tried.cost")},
                      {"chosen", t.chosen}});
  }
  return {{"stages", stages},
          {"turn_overs_against_load", front},
          {"passes_tried", passes},
          {"in_words", {{"turn_overs", viz::trade_sentence(p.trade_offs)}, {"how_good", viz::proof_sentence(p)}}}};
}

}  // namespace evenpull
