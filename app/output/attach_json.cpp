#include "app/output/attach_json.hpp"

#include "viz/words/attach_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/print.hpp"

#include <cmath>

namespace evenpull {
namespace {

Json ribs_json(const std::vector<int>& ribs) {
  auto out = Json::array();
  for (const int rib : ribs) out.push_back(rib + 1);
  return out;
}

Json hollow_json(const HeldDown& h) {
  return {{"rib", h.hollow.rib + 1},
          {"side", h.hollow.side == Side::top ? "top" : "bottom"},
          {"from_chord_share", json_number(h.hollow.from, "from")},
          {"to_chord_share", json_number(h.hollow.to, "to")},
          {"stands_off_m", json_number(h.hollow.lift, "stands_off")},
          {"pull_N_per_m", json_number(h.pull, "pull")},
          {"most_line_load_N_per_m", json_number(h.line_load, "line_load")}};
}

Json limits_json(const AttachStage& s) {
  auto out = Json::array();
  for (const LimitReading& l : s.limits)
    if (!l.gave_way)
      out.push_back({{"limit", viz::limit_text(l.limit)},
                     {"value", json_number(l.value, "value")},
                     {"unit", viz::limit_unit(l.limit)},
                     {"use", json_number(l.use, "use")}});
  return out;
}

Json attach_stage_json(const AttachRun& r, const AttachStage& s, const AttachStage* plain) {
  const double kelvin = r.choice.the_case.stages[static_cast<std::size_t>(s.stage)].temperature;
  Json j = {
      {"stage_degF", json_number(to_degF(kelvin), "stage")}, {"gave_way", s.gave_way}, {"limits", limits_json(s)}};
  if (s.gave_way) return j;
  j["slip_m"] = json_number(s.worst_slip, "slip");
  j["edge_bow_per_spacing"] = json_number(s.end.edge_bow, "edge_bow");
  j["end_rib_bow_per_spacing"] = json_number(s.end.end_rib_bow, "end_rib_bow");
  j["twist_rad"] = json_number(s.end.twist, "twist");
  j["pull_chord_top_N_per_m"] = json_number(s.pull_chord[0], "pull");
  j["pull_chord_bottom_N_per_m"] = json_number(s.pull_chord[1], "pull");
  j["pull_difference_N_per_m"] = json_number(s.difference, "difference");
  j["unevenness"] = json_number(s.unevenness, "unevenness");
  if (plain && !plain->gave_way) j["bays_read_otherwise_by"] = json_number(reads_otherwise(s, *plain), "otherwise");
  auto hollows = Json::array();
  for (const HeldDown& h : s.held_down) hollows.push_back(hollow_json(h));
  j["hollow_ribs"] = hollows;
  return j;
}

const AttachStage* stage_of(const std::vector<AttachRun>& runs, int stage) {
  for (const AttachRun& r : runs)
    for (const AttachStage& s : r.stages)
      if (r.choice.kind == AttachChoice::Kind::never && s.stage == stage) return &s;
  return nullptr;
}

}  // namespace

Json attachments_json(const Case& c) {
  auto out = Json::array();
  for (const Attachment& a : c.attachments) {
    Json j = {{"ribs", ribs_json(a.ribs)}, {"how", viz::fastened_word(a.how)}};
    if (a.how != AttachHow::left) {
      if (a.after > 0 && std::isfinite(a.after)) j["after_degF"] = json_number(to_degF(a.after), "after");
      else j["when"] = viz::fastened_when(a);
      if (!a.is_along_line()) j["spacing_m"] = json_number(a.spacing, "spacing");
    }
    j["in_words"] = viz::attachment_text(a);
    out.push_back(j);
  }
  return out;
}

std::string attach_document(const Case& c, const std::vector<AttachRun>& runs, const std::vector<std::string>& in_words,
                            const std::string& version) {
  Json j;
  j["format"] = 1;
  j["program"] = "evenpull " + version;
  j["title"] = c.title;
  j["invented"] = c.invented;
  j["first_look"] = true;
  j["attachments"] = attachments_json(c);
  auto schedules = Json::array();
  for (const AttachRun& r : runs) {
    auto stages = Json::array();
    for (const AttachStage& s : r.stages) stages.push_back(attach_stage_json(r, s, stage_of(runs, s.stage)));
    schedules.push_back({{"ribs_fastened", viz::choice_text(r.choice)},
                         {"stated", r.choice.stated},
                         {"attachments", attachments_json(r.choice.the_case)},
                         {"stages", stages},
                         {"no_equilibrium_beyond", r.unsolved}});
  }
  j["schedules"] = schedules;
  j["in_words"] = in_words;
  return json_text(j);
}

}  // namespace evenpull
