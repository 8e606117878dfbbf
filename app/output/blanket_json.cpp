#include "app/output/blanket_json.hpp"

#include "app/output/json_units.hpp"
#include "app/text/version.hpp"
#include "viz/words/print.hpp"

namespace evenpull {
namespace {

Json points_json(const Polygon& p) {
  auto out = Json::array();
  for (const PlanePoint& q : p) out.push_back({json_number(mm * q.x(), "x"), json_number(mm * q.y(), "y")});
  return out;
}

const char* of_json(PieceOf of) {
  return of == PieceOf::whole_panel ? "whole wrap" : of == PieceOf::top ? "top sheet" : "bottom sheet";
}

Json openings_json(const ClothPiece& p) {
  auto out = Json::array();
  for (const PieceCutOut& o : p.cut_outs)
    out.push_back(
        {{"kind", o.gap ? "hinge gap" : "pocket"}, {"number", o.number + 1}, {"line_mm", points_json(o.line)}});
  return out;
}

Json piece_json(const BlanketResult& r, std::size_t i) {
  const ClothPiece& p = r.pieces[i];
  return {{"name", of_json(p.of)},
          {"title", r.of[i]->title},
          {"length_mm", json_number(mm * p.length, "length")},
          {"width_mm", json_number(mm * p.width, "width")},
          {"warp_deg", json_number(degrees_per_radian * p.warp, "warp")},
          {"cut_mm", points_json(p.cut)},
          {"glue_line_mm", points_json(p.line)},
          {"openings", openings_json(p)},
          {"does_not_lie_flat_by_mm", json_number(mm * p.off_plane, "off plane")}};
}

Json on_bolt_json(const NestPlace& place, int piece) {
  return {{"piece", piece + 1},
          {"letter", viz::piece_letter(place.piece)},
          {"turned_deg", json_number(degrees_per_radian * place.turned, "turned")},
          {"corners_mm", points_json(place.shape)}};
}

Json glue_line_json(const GlueLineCheck& l, const Case& c) {
  return {{"line", viz::glue_line_row(l, c).front()},
          {"length_mm", json_number(mm * l.length, "length")},
          {"width_mm", json_number(mm * l.width, "width")},
          {"pull_likely_N_per_m", json_number(l.pull.likely, "pull")},
          {"pull_high_N_per_m", json_number(l.pull.high, "pull")},
          {"shear_kPa", json_number(l.shear / 1000, "shear")},
          {"peel_N_per_m", json_number(l.peel, "peel")},
          {"of_stated_shear", json_number(l.shear_use, "shear use")},
          {"of_stated_peel", json_number(l.peel_use, "peel use")},
          {"narrow", l.narrow},
          {"cut_edge_shows", l.edge_shows}};
}

Json seams_json(const BlanketResult& r) {
  auto out = Json::array();
  for (std::size_t i = 0; i < r.seams.size(); ++i) {
    Json j;
    j["title"] = r.cases[i]->title;
    j["stage_degF"] = json_number(to_degF(r.seams[i].stage), "stage");
    j["lines"] = Json::array();
    for (const GlueLineCheck& l : r.seams[i].lines) j["lines"].push_back(glue_line_json(l, *r.cases[i]));
    j["peels_first"] = Json::array();
    for (const PeelPlace& p : r.seams[i].places) j["peels_first"].push_back(viz::peel_sentence(p, *r.cases[i]));
    j["tapes"] = Json::array();
    for (const TapeLength& t : r.seams[i].tapes)
      j["tapes"].push_back({{"over", viz::tape_row(t).front()},
                            {"strips", t.count},
                            {"width_mm", json_number(mm * t.width, "width")},
                            {"length_mm", json_number(mm * t.length, "length")}});
    out.push_back(std::move(j));
  }
  return out;
}

}  // namespace

Json blanket_json(const BlanketResult& r) {
  Json j;
  j["format"] = 1;
  j["program"] = std::string("evenpull ") + version();
  j["title"] = r.the_case->title;
  const Bolt& b = r.trimming.bolt;
  j["bolt"] = {{"width_mm", json_number(mm * b.width, "width")},
               {"usable_mm", json_number(mm * b.usable(), "usable")},
               {"length_mm", json_number(mm * r.layout.length, "length")},
               {"least_length_mm", json_number(mm * r.layout.least, "least")},
               {"every_order_tried", r.layout.all_tried}};
  j["pieces"] = Json::array();
  for (std::size_t i = 0; i < r.pieces.size(); ++i) j["pieces"].push_back(piece_json(r, i));
  j["on_the_bolt"] = Json::array();
  for (const NestPlace& place : r.layout.places)
    j["on_the_bolt"].push_back(on_bolt_json(place, r.cut[static_cast<std::size_t>(place.piece)]));
  j["seams"] = seams_json(r);
  j["warnings"] = r.warnings;
  j["defaults"] = Json::array();
  for (const DefaultUsed& d : r.trimming.defaults_used)
    j["defaults"].push_back({{"key", d.key}, {"value", d.value}, {"why", d.why}});
  return j;
}

}  // namespace evenpull
