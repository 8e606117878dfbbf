#include "app/output/study_json.hpp"

#include "app/output/json_units.hpp"

namespace evenpull {
namespace {

const char* approach_word(Approach a) {
  switch (a) {
    case Approach::settling: return "settling";
    case Approach::wavering: return "wavering";
    case Approach::assumed: return "assumed";
    case Approach::unchanging: break;
  }
  return "unchanging";
}

}  // namespace

const char* accuracy_word(Accuracy a) {
  return a == Accuracy::quick ? "quick" : a == Accuracy::fine ? "fine" : "normal";
}

Json study_json(const NumberStudy& s, double unit) {
  if (s.mesh.empty()) return nullptr;
  auto meshes = Json::array(), zones = Json::array();
  for (const auto& level : s.mesh)
    meshes.push_back({{"edge_mm", json_number(level.size * mm, "study.edge")},
                      {"value", json_number(level.value * unit, "study.value")}});
  for (const auto& level : s.zones)
    zones.push_back({{"parts", level.parts},
                     {"edge_mm", json_number(level.size * mm, "study.edge")},
                     {"value", json_number(level.value * unit, "study.value")},
                     {"change", json_number(level.change * unit, "study.change")}});
  return {{"meshes", meshes},
          {"zones", zones},
          {"approach", approach_word(s.approach)},
          {"order", s.order > 0 ? json_number(s.order, "study.order") : Json(nullptr)},
          {"extrapolated", json_number(s.extrapolated * unit, "study.extrapolated")},
          {"mesh_plus_minus", json_number(s.mesh_plus_minus * unit, "study.mesh_plus_minus")},
          {"zone_plus_minus", json_number(s.zone_plus_minus * unit, "study.zone_plus_minus")},
          {"gave_way", s.gave_way}};
}

Json error_bar_json(const NumberStudy& s, double unit) {
  if (s.mesh.empty() || s.gave_way) return nullptr;
  return json_number(s.plus_minus() * unit, "study.plus_minus");
}

Json study_levels_json(const Plan& p) {
  auto list = Json::array();
  for (const auto& l : p.study)
    list.push_back(
        {{"nodes", l.nodes}, {"edge_mm", json_number(l.edge * mm, "study.edge")}, {"zone_parts", l.zone_parts}});
  return list;
}

}  // namespace evenpull
