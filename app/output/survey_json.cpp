#include "app/output/survey_json.hpp"

#include "app/output/json_number.hpp"
#include "app/output/json_units.hpp"
#include "app/text/units.hpp"
#include "viz/words/print.hpp"
#include "viz/words/record_words.hpp"
#include "viz/words/survey_text.hpp"

#include <filesystem>

namespace evenpull {
namespace {

Json make_of(const MemberMake& make, const Case& c) { return print_make(make, c); }

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
         {"holds", holds}});
  }
  return list;
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
                            {"make", make_of(m.make, c)}});
  j["ribs"] = Json::array();
  for (const auto& r : c.ribs)
    j["ribs"].push_back({{"station_mm", json_number(r.station * mm, "rib.station")},
                         {"make", make_of(r.make, c)},
                         {"pinned", r.hinged_ends}});
  j["goes_on_beyond"] = Json::array();
  if (c.cloth_goes_on_inboard) j["goes_on_beyond"].push_back("inboard end");
  if (c.cloth_goes_on_outboard) j["goes_on_beyond"].push_back("outboard end");
  j["braces"] = Json::array();
  for (const auto& b : c.braces)
    j["braces"].push_back(
        {{"name", b.name},
         {"from", {{"member", c.span_members[static_cast<size_t>(b.from_member)].name}, {"rib", b.from_rib + 1}}},
         {"to", {{"member", c.span_members[static_cast<size_t>(b.to_member)].name}, {"rib", b.to_rib + 1}}},
         {"make", make_of(b.make, c)},
         {"wire", b.wire},
         {"tightness_N", b.wire ? Json(json_number(b.tightness, "brace.tightness")) : Json(nullptr)}});
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
  j["doubts"] = c.doubts;
  j["defaults_used"] = Json::array();
  for (const auto& d : c.defaults_used)
    j["defaults_used"].push_back({{"key", d.key}, {"value", d.value}, {"why", d.why}});
  return json_text(j);
}

}  // namespace evenpull
