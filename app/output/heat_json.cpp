#include "app/output/heat_json.hpp"

#include "app/output/json_units.hpp"
#include "app/text/units.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/sure_words.hpp"

#include <algorithm>

namespace evenpull {
namespace {

const char* way_name(PassWay w) {
  switch (w) {
    case PassWay::hold: return "hold";
    case PassWay::touch: return "touch";
    case PassWay::setting: return "lower setting";
  }
  return "";
}

Json place_json(const SpotHeat& h) {
  return {{"dwell_s", json_number(h.contact, "heat.dwell")},
          {"dose", json_number(h.dose, "heat.dose")},
          {"dose_two_in_three",
           Json::array({json_number(h.dose_low, "heat.dose_low"), json_number(h.dose_high, "heat.dose_high")})},
          {"best_dose", json_number(h.best_dose, "heat.best_dose")},
          {"reaches_dose", h.reaches},
          {"hottest_cloth_degF", json_number(to_degF(h.peak), "heat.peak")},
          {"sole_sags_K", json_number(h.sag, "heat.sag")},
          {"line_fit_error", json_number(h.fit_error, "heat.fit_error")}};
}

Json count_json(const PassCount& n) {
  auto done = Json::array(), beyond = Json::array();
  for (const double d : n.done) done.push_back(json_number(d, "heat.done"));
  for (const double b : n.beyond) beyond.push_back(json_number(b, "heat.beyond"));
  return {{"least_passes", n.least > 0 ? Json(n.least) : Json(nullptr)},
          {"share_done_by_passes", done},
          {"share_beyond_by_passes", beyond},
          {"sampling_error", json_number(n.error, "heat.error")}};
}

Json chance_json(const Chance& c) {
  return {{"chance", json_number(c.share(), "chance")},
          {"interval_95", Json::array({json_number(c.low, "chance.low"), json_number(c.high, "chance.high")})}};
}

const PassHeat* heat_of(const Plan& p, const Step& s) {
  if (s.stage >= static_cast<int>(p.heat.size())) return nullptr;
  const auto& passes = p.heat[static_cast<size_t>(s.stage)].passes;
  if (s.pass < 1 || s.pass > static_cast<int>(passes.size())) return nullptr;
  const PassHeat& h = passes[static_cast<size_t>(s.pass) - 1];
  // An order of somebody's own may work a zone with another dose than its pass.
  constexpr double same_dose = 1e-6;
  return std::abs(h.asked - s.dose) < same_dose || stated_contact(p.the_case, s.stage, s.pass, s.dose) > 0 ? &h
                                                                                                           : nullptr;
}

bool lies_on_nose(const Plan& p, int zone) {
  const auto& quads = p.panel.zones.at(static_cast<size_t>(zone)).quads;
  return std::any_of(quads.begin(), quads.end(), [&](int q) {
    return p.panel.nodes[static_cast<size_t>(p.panel.quads[static_cast<size_t>(q)].nodes[1])].on_nose;
  });
}

}  // namespace

Json heat_json(const Plan& p) {
  auto list = Json::array();
  for (size_t s = 0; s < p.heat.size(); ++s) {
    const StageHeat& h = p.heat[s];
    auto passes = Json::array();
    for (size_t i = 0; i < h.passes.size(); ++i) {
      const PassHeat& pass = h.passes[i];
      passes.push_back({{"pass", i + 1},
                        {"dose_asked", json_number(pass.asked, "heat.asked")},
                        {"way", way_name(pass.way)},
                        {"sole_degF", json_number(to_degF(pass.sole_temperature), "heat.sole")},
                        {"can_be_had", pass.way == PassWay::hold || can_be_had(pass)},
                        {"open", place_json(pass.open)},
                        {"nose", pass.nose ? place_json(*pass.nose) : Json(nullptr)}});
    }
    auto zones = Json::array();
    for (const ShortZone& z : h.short_zones) zones.push_back(p.panel.zones[static_cast<size_t>(z.zone)].label);
    list.push_back({{"stage_degF", json_number(stage_degF(p, static_cast<int>(s)), "heat.stage")},
                    {"passes", passes},
                    {"passes_needed_open", count_json(h.open)},
                    {"passes_needed_nose", h.nose ? count_json(*h.nose) : Json(nullptr)},
                    {"zones_that_stay_short", zones}});
  }
  return list;
}

Json chances_json(const Plan& p) {
  const Chances& k = p.chances;
  if (k.scenarios == 0) return nullptr;
  auto holds = Json::array(), limits = Json::array(), weights = Json::array(), zones = Json::array();
  for (size_t s = 0; s < k.holds.size(); ++s) {
    Json j = {{"stage_degF", json_number(stage_degF(p, static_cast<int>(s)), "chances.stage")}};
    j.update(chance_json(k.holds[s]));
    holds.push_back(j);
  }
  auto shape = Json::array(), damage = Json::array();
  for (size_t s = 0; s < k.shape.size(); ++s) {
    const Json stage = {{"stage_degF", json_number(stage_degF(p, static_cast<int>(s)), "chances.stage")}};
    shape.push_back(stage), damage.push_back(stage);
    shape.back().update(chance_json(k.shape[s]));
    damage.back().update({{"chance", json_number(k.damage[s].chance(), "damage.chance")},
                          {"by_the_fit", json_number(k.damage[s].fitted, "damage.fitted")},
                          {"known", k.damage[s].known},
                          {"counted", chance_json(k.damage[s].counted)}});
  }
  for (const LimitChance& l : k.limits) {
    Json j = {{"name", viz::limit_text(l.limit)},
              {"stage_degF", json_number(stage_degF(p, l.stage), "chances.limits.stage")}};
    j.update(chance_json(l.over));
    limits.push_back(j);
  }
  for (const InputWeight& w : k.weights)
    weights.push_back(
        {{"input", viz::unsure_text(w.input)},
         {"spread", viz::spread_text(w)},
         {"share", json_number(w.share, "chances.share")},
         {"interval_90", Json::array({json_number(w.low, "share.low"), json_number(w.high, "share.high")})},
         {"raises_use", w.sign > 0}});
  for (size_t z = 0; z < k.zones.size(); ++z)
    zones.push_back({{"zone", p.panel.zones.at(z).label},
                     {"uneven", chance_json(k.zones[z].uneven)},
                     {"slides", chance_json(k.zones[z].slides)}});
  return {{"scenarios", k.scenarios},
          {"nodes", k.nodes},
          {"all_limits_hold_up_to", holds},
          {"confidence", json_number(k.confidence, "chances.confidence")},
          {"within_limits_of_distortion_up_to", shape},
          {"damage_wanted", json_number(k.damage_wanted, "chances.damage_wanted")},
          {"damaged_by", damage},
          {"runs_at_the_edge",
           {{"runs", k.edge.runs},
            {"mean_off", json_number(k.edge.mean, "edge.mean")},
            {"scatter", json_number(k.edge.scatter, "edge.scatter")},
            {"scatter_of_the_fit", json_number(k.edge.fit_scatter, "edge.fit_scatter")},
            {"fit_raised_by", json_number(k.edge.shift, "edge.shift")}}},
          {"over_limit", limits},
          {"governing",
           {{"name", k.governing ? viz::limit_text(*k.governing) : ""},
            {"stage_degF", json_number(stage_degF(p, k.governing_stage), "chances.governing")},
            {"explained", json_number(k.explained, "chances.explained")},
            {"inputs", weights}}},
          {"zones_at", json_number(stage_degF(p, k.risk_stage), "chances.zones_at")},
          {"zones", zones},
          {"reduced_model",
           {{"checked_zone_by_zone", k.agreement.scenarios},
            {"checked_on_nodes", k.agreement.nodes},
            {"full_over_reduced", json_number(k.agreement.ratio, "agreement.ratio")},
            {"rms_error", json_number(k.agreement.rms, "agreement.rms")},
            {"worst_error", json_number(k.agreement.worst, "agreement.worst")},
            {"same_decision", k.agreement.decisions}}}};
}

Json dwell_json(const Plan& p, const Step& s) {
  const PassHeat* h = heat_of(p, s);
  return h ? json_number(h->open.contact, "steps.dwell") : Json(nullptr);
}

Json nose_dwell_json(const Plan& p, const Step& s) {
  const PassHeat* h = heat_of(p, s);
  return h && h->nose && lies_on_nose(p, s.zone) ? json_number(h->nose->contact, "steps.nose_dwell") : Json(nullptr);
}

}  // namespace evenpull
