#include "app/output/plan_json.hpp"

#include "app/output/attach_json.hpp"
#include "app/output/heat_json.hpp"
#include "app/output/json_number.hpp"
#include "app/output/json_units.hpp"
#include "app/output/search_json.hpp"
#include "app/output/stages_json.hpp"
#include "app/output/study_json.hpp"
#include "app/text/units.hpp"
#include "viz/words/advice_words.hpp"
#include "viz/words/after_iron_words.hpp"
#include "viz/words/cautions.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/note_words.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/verdict_words.hpp"
#include "viz/words/zone_names.hpp"

#include <filesystem>

namespace evenpull {
namespace {

Json hottest_safe(const Plan& p) {
  Json j;
  j["stage_degF"] = p.ceiling ? json_number(stage_degF(p, *p.ceiling), "hottest_safe.stage_degF") : Json(nullptr);
  j["first_look"] = p.first_look();
  j["holds_as_stated_up_to_degF"] = p.nominal ? json_number(stage_degF(p, *p.nominal), "hottest_safe.holds_as_stated")
                                              : Json(nullptr);
  j["lacking"] = Json::array();
  for (const StageSafety& s : p.safety) {
    auto lacking = Json::array();
    for (const Lacking l : s.lacking) lacking.push_back(viz::lacking_name(l));
    j["lacking"].push_back({{"stage_degF", json_number(stage_degF(p, s.stage), "lacking.stage")}, {"lacks", lacking}});
  }
  j["setting_degF"] = p.setting ? json_number(to_degF(*p.setting), "hottest_safe.setting_degF") : Json(nullptr);
  j["loose_cloth"] = p.advice.loose ? Json(viz::loose_sentence(p)) : Json(nullptr);
  j["because"] = viz::because_text(p);
  j["advice"] = viz::advice_sentences(p);
  return j;
}

Json times(const Plan& p) {
  auto list = Json::array();
  for (const StageTime& t : p.times)
    list.push_back({{"stage_degF", json_number(stage_degF(p, t.stage), "times.stage_degF")},
                    {"ironing_s", json_number(t.ironing, "times.ironing")},
                    {"turning_over_s", json_number(t.turning, "times.turning")},
                    {"cooling_and_checks_s", json_number(t.waiting, "times.waiting")},
                    {"turn_overs", t.turn_overs}});
  return list;
}

Json limits(const Plan& p) {
  auto list = Json::array();
  for (const auto& l : p.limits)
    list.push_back(
        {{"name", viz::limit_text(l.limit)},
         {"where", viz::place_text(p.panel, l.where)},
         {"when", viz::moment_text(l.when)},
         {"stage_degF", json_number(stage_degF(p, l.stage), "limits.stage_degF")},
         {"value", unless(l.gave_way, l.value, "limits.value")},
         {"allowed", json_number(l.allowed, "limits.allowed")},
         {"unit", viz::limit_unit(l.limit)},
         {"use", unless(l.gave_way, l.use, "limits.use")},
         {"use_plus_minus", unless(l.gave_way || l.study.gave_way, l.use_plus_minus, "limits.use_plus_minus")},
         {"use_of_worse_joints",
          l.use_of_worse_joints > 0 ? json_number(l.use_of_worse_joints, "limits.use_of_worse_joints") : Json(nullptr)},
         {"judgement", l.judgement},
         {"at_once", l.lasting == 1 ? Json(nullptr) : json_number(l.value / l.lasting, "limits.at_once")},
         {"in_compression", l.compression},
         {"beside_a_weld", l.at_weld},
         {"study", study_json(l.study)}});
  return list;
}

Json orders(const Plan& p) {
  auto list = Json::array();
  for (const auto& o : p.orders)
    list.push_back(
        {{"name", viz::order_name(o.order)},
         {"description", viz::order_rule(o.order)},
         {"model", viz::model_text(o.model)},
         {"stages_passed", o.stages_passed},
         {"worst_use", unless(o.gave_way, o.worst_use, "orders.worst_use")},
         {"unevenness_final", json_number(o.unevenness_final, "orders.unevenness_final")},
         {"worst_pull_difference_chordwise_N_per_m",
          unless(o.gave_way, o.worst_pull_difference_chordwise, "orders.worst_pull_difference_chordwise")},
         {"worst_pull_difference_spanwise_N_per_m",
          unless(o.gave_way, o.worst_pull_difference_spanwise, "orders.worst_pull_difference_spanwise")},
         {"worst_slip_mm", unless(o.gave_way, o.worst_slip * mm, "orders.worst_slip")},
         {"worst_twist_deg", unless(o.gave_way, o.worst_twist * degrees_per_radian, "orders.worst_twist")},
         {"pull_spread_along_span_N_per_m", json_number(o.pull_spread_along_span, "orders.pull_spread_along_span")},
         {"turn_overs", o.turn_overs},
         {"turn_overs_a_pass", o.turn_overs_a_pass},
         {"gave_way", o.gave_way},
         {"chosen", o.chosen}});
  return list;
}

Json steps(const Plan& p) {
  auto list = Json::array();
  for (const auto& s : p.steps) {
    const auto& zone = p.panel.zones.at(static_cast<size_t>(s.zone));
    list.push_back({{"stage_degF", json_number(stage_degF(p, s.stage), "steps.stage_degF")},
                    {"pass", s.pass},
                    {"run", s.run},
                    {"place", s.place},
                    {"zone", zone.label},
                    {"side", side_name(zone.side)},
                    {"bay", zone.bay + 1},
                    {"strip", zone.strip + 1},
                    {"dose", json_number(s.dose, "steps.dose")},
                    {"dwell_s", dwell_json(p, s)},
                    {"dwell_over_nose_s", nose_dwell_json(p, s)},
                    {"done", s.done},
                    {"to_be_ironed", p.ceiling.has_value() && s.stage <= *p.ceiling},
                    {"only_by_reading", s.stage == opened_by_reading(p)}});
  }
  return list;
}

Json bounds(const Plan& p) {
  auto list = Json::array();
  for (const auto& b : p.bounds) {
    auto use = Json::array();
    for (int s = 0; s < b.first_stage; ++s) use.push_back(nullptr);
    for (const std::optional<double>& u : b.worst_use) use.push_back(json_number(u, "bounds.worst_use"));
    list.push_back({{"name", viz::bound_name(b)},
                    {"worst_use_by_stage", use},
                    {"unevenness_final", json_number(b.unevenness_final, "bounds.unevenness_final")},
                    {"worst_slip_mm", json_number(b.worst_slip * mm, "bounds.worst_slip")}});
  }
  return list;
}

std::optional<double> in_percent(const std::optional<double>& share) {
  return share ? std::optional(*share * percent) : std::nullopt;
}

Json solve(const Plan& p) {
  const auto& s = p.solve;
  return {{"nodes", s.nodes},
          {"steps", s.steps},
          {"iterations", s.iterations},
          {"worst_residual_N", json_number(s.worst_residual, "solve.worst_residual")},
          {"tension_error_bound_N_per_m", json_number(s.tension_error_bound, "solve.tension_error_bound")},
          {"tension_error_bound_on_the_way_N_per_m",
           json_number(s.tension_error_bound_on_the_way, "solve.tension_error_bound_on_the_way")},
          {"friction_threshold_error_percent",
           json_number(s.worst_threshold_error * percent, "solve.worst_threshold_error")},
          {"mesh_change_percent", json_number(in_percent(s.mesh_change), "solve.mesh_change")},
          {"zone_change_percent", json_number(in_percent(s.zone_change), "solve.zone_change")}};
}

Json certificates(const Plan& p) {
  auto list = Json::array();
  for (const auto& c : p.certificates)
    list.push_back({{"stage_degF", json_number(stage_degF(p, c.stage), "certificates.stage_degF")},
                    {"after", viz::certificate_text(p, c)},
                    {"iterations", c.solve.iterations},
                    {"residual_N", json_number(c.solve.residual, "certificates.residual")},
                    {"gap_N_m", json_number(c.solve.gap, "certificates.gap")},
                    {"energy_N_m", json_number(c.solve.energy, "certificates.energy")},
                    {"tension_error_bound_N_per_m", json_number(c.solve.tension_bound, "certificates.tension_bound")},
                    {"friction_threshold_error_percent",
                     json_number(c.solve.threshold_error * percent, "certificates.threshold_error")}});
  return list;
}

Json adhesive(const Case& c) {
  if (!c.adhesive_bears) return nullptr;
  auto left_out = Json::array();
  for (const double t : c.too_hot_for_adhesive) left_out.push_back(json_number(to_degF(t), "adhesive.left_out"));
  return {{"hottest_degF", json_number(to_degF(*c.adhesive_bears), "adhesive.hottest")},
          {"stages_left_out_degF", left_out}};
}

Json defaults(const Case& c) {
  auto list = Json::array();
  for (const auto& d : c.defaults_used) list.push_back({{"key", d.key}, {"value", d.value}, {"why", d.why}});
  return list;
}

}  // namespace

std::string plan_document(const Plan& p, const std::string& version) {
  Json j;
  j["format"] = plan_json_format;
  j["program"] = "evenpull " + version;
  // The bare name: the document must not depend on the folder it was made in.
  j["case"] = {{"file", std::filesystem::path(p.the_case.file).filename().string()},
               {"title", p.the_case.title},
               {"description", p.the_case.description},
               {"invented", p.the_case.invented}};
  j["quick"] = p.quick();
  j["accuracy"] = accuracy_word(p.accuracy);
  j["replayed"] = p.replayed;
  j["hottest_safe"] = hottest_safe(p);
  j["approved_last_stage_degF"] = p.the_case.approved_last_stage
                                      ? json_number(to_degF(*p.the_case.approved_last_stage), "approved_last_stage")
                                      : Json(nullptr);
  j["adhesive"] = adhesive(p.the_case);
  static const char* const finishes[] = {"", "tautening", "not tautening"};
  const auto finish = static_cast<size_t>(p.the_case.finish);
  j["after_the_iron"] = {{"finish", finish > 0 ? Json(finishes[finish]) : Json(nullptr)},
                         {"no_verdict", viz::coats_tauten(p.the_case)},
                         {"in_words", viz::after_iron_sentences(p.the_case)}};
  j["order"] = {{"name", viz::order_name(p.order)}, {"rule", viz::order_rule(p.order)}};
  if (!p.the_case.attachments.empty()) j["attachments"] = attachments_json(p.the_case);
  j["times"] = times(p);
  j["limits"] = limits(p);
  j["orders"] = orders(p);
  j["search"] = search_json(p);
  j["stages"] = stages_json(p);
  j["steps"] = steps(p);
  j["read"] = read_json(p);
  j["heat"] = heat_json(p);
  j["chances"] = chances_json(p);
  j["zones"] = {{"bays", p.panel.bays}, {"strips_per_bay", p.panel.strips}};
  j["bounds"] = bounds(p);
  j["error_bars_from"] = study_levels_json(p);
  j["solve"] = solve(p);
  j["certificates"] = certificates(p);
  j["defaults_used"] = defaults(p.the_case);
  j["doubts"] = p.the_case.doubts;
  j["notes"] = viz::note_sentences(p);
  j["cautions"] = viz::cautions();
  return json_text(j);
}

}  // namespace evenpull
