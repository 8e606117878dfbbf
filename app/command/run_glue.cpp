// glue: where the cloth is glued, how much adhesive that takes, what heat it bears.
#include "app/command/put_out_slip.hpp"
#include "app/input/case_reader.hpp"
#include "viz/words/glue_words.hpp"
#include "viz/words/print.hpp"

namespace evenpull {
namespace {

const char* line_key(LineAt at) {
  switch (at) {
    case LineAt::leading_edge: return "leading edge";
    case LineAt::trailing_edge: return "trailing edge";
    case LineAt::end_rib: return "end rib";
    case LineAt::inner_rib: return "inner rib";
    case LineAt::pocket_front: return "pocket front";
    case LineAt::pocket_side: return "pocket side";
    case LineAt::hinge_gap: return "hinge gap";
  }
  return "";
}

Json line_json(const GlueLine& l) {
  return {{"at", line_key(l.at)},
          {"side", l.side == Side::top ? "top" : "bottom"},
          {"number", l.index >= 0 ? Json(l.index + 1) : Json(nullptr)},
          {"length_m", json_number(l.length, "length")},
          {"width_m", json_number(l.width, "width")},
          {"turned_m", json_number(l.turned, "turned")},
          {"area_m2", json_number(l.area(), "area")}};
}

Json volume_json(const Volume& v) {
  constexpr double millilitres = 1e6;
  return {{"likely_mL", json_number(millilitres * v.likely, "likely")},
          {"low_mL", json_number(millilitres * v.low, "low")},
          {"high_mL", json_number(millilitres * v.high, "high")}};
}

Json glue_json(const CaseFile& file, const std::vector<GlueLine>& lines, const GlueNeed& need) {
  const Adhesive& a = file.adhesive;
  Json j = slip_json(file.value);
  auto list = Json::array(), left_out = Json::array();
  for (const GlueLine& l : lines) list.push_back(line_json(l));
  for (const double t : a.left_out) left_out.push_back(json_number(to_degF(t), "left_out"));
  j["lines"] = list;
  j["area_m2"] = json_number(need.area, "area");
  j["pre_coat"] = volume_json(need.pre_coat);
  j["lay_in"] = volume_json(need.lay_in);
  j["brush_through"] = volume_json(need.brush_through);
  j["in_all"] = volume_json(need.in_all);
  j["waiting_s"] = json_number(a.waiting, "waiting");
  j["between_coats_s"] = json_number(a.between, "between");
  j["hottest_degF"] = a.hottest ? json_number(to_degF(*a.hottest), "hottest") : Json(nullptr);
  j["stages_left_out_degF"] = left_out;
  j["warnings"] = viz::glue_warnings(file.value, a);
  j["steps"] = viz::glue_steps(a);
  j["defaults_used"] = defaults_json(a.taken);
  return j;
}

WorkSlip glue_slip(const CaseFile& file, const std::vector<GlueLine>& lines, const GlueNeed& need) {
  const Adhesive& a = file.adhesive;
  WorkSlip slip{"Glue", file.value.title, viz::glue_headline(need), "glued by, date, batch", {}};
  SlipPart warnings, table, volumes, steps, notes;
  warnings.warnings = viz::glue_warnings(file.value, a);
  table.heading = "Lines to glue";
  table.columns = {{"line", 0.34, true}, {"length", 0.25}, {"mean width", 0.19}, {"area", 0.22}};
  for (const viz::GlueRow& r : viz::glue_rows(file.value, lines))
    table.rows.push_back({r.line, r.length, r.width, r.area});
  volumes.heading = "What they take";
  volumes.columns = {{"coat", 0.38}, {"likely", 0.27, true}, {"95 of 100 between", 0.35}};
  for (const viz::GlueVolumeRow& r : viz::glue_volume_rows(need, a))
    volumes.rows.push_back({r.coat, r.likely, r.range});
  steps.heading = "In this order";
  steps.steps = viz::glue_steps(a);
  notes.notes = viz::glue_notes(a.taken);
  slip.parts = {warnings, table, volumes, steps, notes};
  return slip;
}

}  // namespace

void run_glue(const Request& r, std::ostream& out) {
  const CaseFile file = read_case_file(r.case_file);
  const std::vector<GlueLine> lines = glue_lines(file.value, panel_of(r, file), file.adhesive);
  const GlueNeed need = glue_need(lines, file.adhesive);
  put_out_slip(r, out, glue_slip(file, lines, need), SlipSize::whole_sheet, "glue", glue_json(file, lines, need));
}

}  // namespace evenpull
