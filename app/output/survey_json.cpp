#include "app/output/survey_json.hpp"

#include "app/output/attach_json.hpp"
#include "app/output/json_number.hpp"
#include "app/output/json_units.hpp"
#include "app/text/units.hpp"
#include "solver/geometry/cut_outs.hpp"
#include "viz/words/joint_words.hpp"
#include "viz/words/print.hpp"
#include "viz/words/record_words.hpp"
#include "viz/words/section_words.hpp"

#include <filesystem>

namespace evenpull {
namespace {

Json make_of(const MemberMake& make, const Case& c) { return print_make(make, c); }

Json sections_of(const Case& c) {
  constexpr double mm2 = mm * mm, mm4 = mm2 * mm2, mm6 = mm4 * mm2;
  auto list = Json::array();
  for (const auto& s : shown_sections(c)) {
    const Section& p = s.section;
    list.push_back({{"of", s.carriers},
                    {"make", shown_section_text(s, c)},
                    {"area_mm2", json_number(p.area * mm2, "section.area")},
                    {"inertia_up_mm4", json_number(p.inertia_up * mm4, "section.inertia_up")},
                    {"inertia_flat_mm4", json_number(p.inertia_flat * mm4, "section.inertia_flat")},
                    {"torsion_mm4", json_number(p.torsion * mm4, "section.torsion")},
                    {"reach_up_mm", json_number(p.reach_up * mm, "section.reach_up")},
                    {"reach_flat_mm", json_number(p.reach_flat * mm, "section.reach_flat")},
                    {"shear_area_up_mm2", json_number(p.shear_up * mm2, "section.shear_up")},
                    {"shear_area_flat_mm2", json_number(p.shear_flat * mm2, "section.shear_flat")},
                    {"warping_mm6", json_number(p.warping * mm6, "section.warping")},
                    {"notes", section_notes(s.make, s.shape, c)}});
  }
  return list;
}

Json stress(double pascals) { return pascals > 0 ? json_number(pascals / 1e6, "material.strength") : Json(nullptr); }

Json material_of(const Material& m) {
  return {{"name", m.name},
          {"strength_MPa", stress(m.strength)},
          {"of", m.kind == Strength::yield ? "yield" : "rupture"},
          {"compression_MPa", stress(m.compression_strength)},
          {"beside_a_weld_MPa", stress(m.welded_strength)},
          {"weld_reach_mm", json_number(m.weld_reach * mm, "material.weld_reach")},
          {"lasting", json_number(m.lasting_movement, "material.lasting")}};
}

Json supports_of(const std::vector<Support>& supports, const Case& c) {
  auto list = Json::array();
  for (const auto& s : supports) {
    auto holds = Json::array();
    static const char* const motions[] = {"x", "y", "z", "turn x", "turn y", "turn z"};
    for (size_t i = 0; i < 6; ++i)
      if (s.hold[i]) holds.push_back(motions[i]);
    list.push_back(
        {{"as", viz::support_kind_text(s.kind)},
         {"member", c.span_members[static_cast<size_t>(s.member)].name},
         {"station_mm", s.whole_length ? Json("whole length") : json_number(s.station * mm, "supports.station")},
         {"holds", holds},
         {"give_mm_per_100N", json_number(s.give * 100 * mm, "supports.give")}});
  }
  return list;
}

void add_cut_outs(Json& j, const Case& c) {
  j["pockets"] = Json::array();
  for (const auto& p : c.pockets) {
    const int member = member_at_front(c, p);
    j["pockets"].push_back(
        {{"name", p.name},
         {"from_mm", json_number(p.from * mm, "pocket.from")},
         {"to_mm", json_number(p.to * mm, "pocket.to")},
         {"depth_mm", json_number(p.depth * mm, "pocket.depth")},
         {"front_percent", json_number(pocket_front(c, p) * 100, "pocket.front")},
         {"front", member >= 0 ? Json(c.span_members[static_cast<size_t>(member)].name) : make_of(*p.make, c)}});
  }
  j["hinge_gaps"] = Json::array();
  for (const auto& g : c.hinge_gaps)
    j["hinge_gaps"].push_back({{"from_mm", json_number(g.from * mm, "hinge_gap.from")},
                               {"to_mm", json_number(g.to * mm, "hinge_gap.to")},
                               {"depth_mm", json_number(g.depth * mm, "hinge_gap.depth")},
                               {"end_percent", json_number(gap_end(c, g) * 100, "hinge_gap.end")}});
}

Json brace_end(const Case& c, int member, int rib, bool mid_bay) {
  return {{"member", c.span_members[static_cast<size_t>(member)].name}, {mid_bay ? "mid_bay" : "rib", rib + 1}};
}

}  // namespace

std::string survey_document(const Case& c, const Panel& panel, const RunEstimate& estimate, const RunEstimate& fine,
                            const std::string& version) {
  Json j;
  j["format"] = survey_json_format;
  j["program"] = "evenpull " + version;
  j["case"] = {{"file", std::filesystem::path(c.file).filename().string()},
               {"title", c.title},
               {"description", c.description},
               {"invented", c.invented}};
  const auto& o = c.outline;
  j["outline"] = {
      {"span_mm", json_number(o.span() * mm, "span")},
      {"chord_inboard_mm", json_number((o.trailing_edge.front().x - o.leading_edge.front().x) * mm, "chord")},
      {"chord_tip_mm", json_number((o.trailing_edge.back().x - o.leading_edge.back().x) * mm, "tip chord")},
      {"tip_bow_depth_mm", json_number(o.tip_bow_depth * mm, "tip bow depth")}};
  j["members"] = Json::array();
  for (const auto& m : c.span_members)
    j["members"].push_back({{"name", m.name},
                            {"chord_percent", json_number(m.chord_fraction * 100, "member.at")},
                            {"make", make_of(m.make, c)},
                            {"hinge_line", m.hinge_line}});
  j["materials"] = Json::array();
  for (const auto& m : c.materials) j["materials"].push_back(material_of(m));
  static const char* const finishes[] = {"not stated", "tautening", "not tautening"};
  j["finish"] = finishes[static_cast<size_t>(c.finish)];
  j["ribs"] = Json::array();
  for (const auto& r : c.ribs)
    j["ribs"].push_back({{"station_mm", json_number(r.station * mm, "rib.station")},
                         {"make", make_of(r.make, c)},
                         {"pinned", r.front_joint.kind == JointKind::pinned && r.rear_joint.kind == JointKind::pinned},
                         {"front_joint", viz::joint_text(r.front_joint)},
                         {"rear_joint", viz::joint_text(r.rear_joint)},
                         {"touches_cloth", r.touches_cloth}});
  add_cut_outs(j, c);
  j["sections"] = sections_of(c);
  j["joints"] = Json::array();
  for (const auto& joint : viz::joint_lines(c, panel))
    j["joints"].push_back({{"where", joint.where}, {"made", joint.made}, {"stiffness_over_member", joint.turns}});
  j["goes_on_beyond"] = Json::array();
  if (c.cloth_goes_on_inboard) j["goes_on_beyond"].push_back("inboard end");
  if (c.cloth_goes_on_outboard) j["goes_on_beyond"].push_back("outboard end");
  j["braces"] = Json::array();
  for (const auto& b : c.braces)
    j["braces"].push_back(
        {{"name", b.name},
         {"from", brace_end(c, b.from_member, b.from_rib, b.from_mid_bay)},
         {"to", brace_end(c, b.to_member, b.to_rib, b.to_mid_bay)},
         {"comes_out", b.comes_out},
         {"make", make_of(b.make, c)},
         {"wire", b.wire},
         {"tightness_N", b.wire ? Json(json_number(b.tightness, "brace.tightness")) : Json(nullptr)}});
  j["battens"] = Json::array();
  for (const auto& b : c.battens)
    j["battens"].push_back(
        {{"name", b.name},
         {"rib", b.rib >= 0 ? Json(b.rib + 1) : Json(nullptr)},
         {"member", b.rib >= 0 ? Json(nullptr) : Json(c.span_members[static_cast<size_t>(b.span_member)].name)},
         {"make", make_of(b.make, c)},
         {"comes_out", b.comes_out}});
  j["supports"] = {{"while_ironed", supports_of(c.while_ironed, c)}, {"in_use", supports_of(c.in_use, c)}};
  j["stages"] = Json::array();
  for (const auto& s : c.stages) {
    auto doses = Json::array();
    for (const double d : s.doses) doses.push_back(json_number(d, "dose"));
    j["stages"].push_back({{"stage_degF", json_number(to_degF(s.temperature), "stage")}, {"doses", doses}});
  }
  j["zones"] = {{"count", panel.zones.size()}, {"bays", panel.bays}, {"strips_per_bay", panel.strips}};
  j["fullness_percent"] = json_number(panel.fullness * 100, "fullness");
  j["estimate"] = {{"nodes", estimate.nodes},
                   {"steps", estimate.steps},
                   {"processor_seconds", json_number(estimate.processor_seconds, "estimate.processor_seconds")},
                   {"processor_seconds_fine", json_number(fine.processor_seconds, "estimate.processor_seconds_fine")}};
  if (!c.attachments.empty()) j["attachments"] = attachments_json(c);
  j["doubts"] = c.doubts;
  j["defaults_used"] = Json::array();
  for (const auto& d : c.defaults_used)
    j["defaults_used"].push_back({{"key", d.key}, {"value", d.value}, {"why", d.why}});
  return json_text(j);
}

}  // namespace evenpull
