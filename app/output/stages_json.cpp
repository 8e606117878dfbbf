#include "app/output/stages_json.hpp"

#include "app/output/json_units.hpp"
#include "app/output/study_json.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/sure_words.hpp"

namespace evenpull {

namespace {

Json both_sides(const StageSummary& s, const double (&v)[2], const char* name) {
  return {{"top", unless(!s.settled, v[0], name)}, {"bottom", unless(!s.settled, v[1], name)}};
}

Json uneven(const StageSummary& s, std::optional<double> Unevenness::*way, const char* name) {
  return {{"top", json_number(s.unevenness[0].*way, name)}, {"bottom", json_number(s.unevenness[1].*way, name)}};
}

Json loose_zones(const Plan& p, const StageSummary& s) {
  if (!s.settled) return nullptr;
  auto list = Json::array();
  for (const int z : s.loose_zones) list.push_back(p.panel.zones.at(static_cast<size_t>(z)).label);
  return list;
}

Json thickness_loss(const ThicknessLoss& l) {
  if (l.bay < 0) return nullptr;
  return {{"loss_mm", json_number(l.loss * mm, "stages.sag.loss")},
          {"share_of_thickness_percent", json_number(l.share() * percent, "stages.sag.share")},
          {"bay", l.bay + 1},
          {"chord_percent", json_number(l.chord_fraction * percent, "stages.sag.chord_fraction")},
          {"top_mm", json_number(l.top * mm, "stages.sag.top")},
          {"bottom_mm", json_number(l.bottom * mm, "stages.sag.bottom")},
          {"local_thickness_mm", json_number(l.thickness * mm, "stages.sag.thickness")}};
}

// As they read cold and off the rests; wood gives more in time.
Json bows(const StageSummary& s) {
  const StageEnd& e = s.end;
  return {
      {"trailing_edge", unless(!s.settled, e.edge_bow, "stages.bows.trailing_edge")},
      {"end_rib", unless(!s.settled, e.end_rib_bow, "stages.bows.end_rib")},
      {"hinge_line_mm", unless(!s.settled || e.hinge_line_bow <= 0, e.hinge_line_bow * mm, "stages.bows.hinge_line")},
      {"whole_edge", unless(!s.settled, e.whole_edge_bow, "stages.bows.whole_edge")},
      {"pocket_closes_mm", unless(!s.settled || e.pocket_closing <= 0, e.pocket_closing * mm, "stages.bows.pocket")}};
}

Json sag(const StageSummary& s) {
  auto by_bay = Json::array();
  for (const auto& l : s.thickness_loss_by_bay) by_bay.push_back(thickness_loss(l));
  return {{"worst", thickness_loss(s.thickness_loss)}, {"by_bay", by_bay}};
}

Json buckling_shape(const Plan& p, const StageSummary& s) {
  if (!s.buckling_mode) return nullptr;
  const auto& b = *s.buckling_mode;
  return {{"factor", json_number(b.factor, "stages.buckling_shape.factor")},
          {"when", viz::moment_text(b.when)},
          {"moves_most", viz::place_text(p.panel, b.where)},
          {"residual", json_number(b.residual, "stages.buckling_shape.residual")},
          {"least_proven", b.least_proven}};
}

// Of the two sides: what `of` makes of each study.
template <class Of>
Json each_side(const NumberStudy (&s)[2], Of of) {
  return {{"top", of(s[0])}, {"bottom", of(s[1])}};
}

Json pull_bars(const StageSummary& s) {
  const auto bar = [](const NumberStudy& n) { return error_bar_json(n); };
  return {{"chordwise", each_side(s.pull_chord_study, bar)}, {"spanwise", each_side(s.pull_span_study, bar)}};
}

Json stage_studies(const StageSummary& s) {
  const auto study = [](const NumberStudy& n) { return study_json(n); };
  return {{"mean_pull_N_per_m",
           {{"chordwise", each_side(s.pull_chord_study, study)}, {"spanwise", each_side(s.pull_span_study, study)}}},
          {"worst_slip_mm", study_json(s.slip_study, mm)}};
}

Json weight_and_tap(const Plan& p, int stage) {
  auto list = Json::array();
  if (stage >= static_cast<int>(p.bench_checks.size())) return list;
  for (const auto& c : p.bench_checks[static_cast<size_t>(stage)])
    list.push_back({{"side", side_name(c.side)},
                    {"bay", c.bay + 1},
                    {"weight_g", json_number(c.weight * 1e3, "stages.weight_and_tap.weight")},
                    {"disc_mm", json_number(check_disc * mm, "stages.weight_and_tap.disc")},
                    {"sag_mm",
                     {json_number(c.sag_low * mm, "stages.weight_and_tap.sag"),
                      json_number(c.sag_high * mm, "stages.weight_and_tap.sag")}},
                    {"tap_Hz",
                     {json_number(c.tap_low, "stages.weight_and_tap.tap"),
                      json_number(c.tap_high, "stages.weight_and_tap.tap")}}});
  return list;
}

// What to expect of the shape, cold and off the rests, and beyond which something is not as stated.
Json shape_json(const Plan& p, int stage) {
  auto list = Json::array();
  for (const ShapeReading& r : p.chances.shapes)
    if (r.stage == stage)
      list.push_back(
          {{"name", viz::limit_text(r.limit)},
           {"unit", r.limit == Limit::twist ? "rad"
                    : r.limit == Limit::slip || r.limit == Limit::hinge_line_bow || r.limit == Limit::pocket_room
                        ? "m"
                        : "share of the distance"},
           {"expected", json_number(r.expected, "stages.to_be_read.expected")},
           {"seldom_more", json_number(r.seldom_more, "stages.to_be_read.seldom_more")}});
  return list;
}

// What lets the work go on to the next stage.
Json go_on_json(const Plan& p, int stage) {
  for (const StageWindow& w : p.windows) {
    if (w.stage != stage) continue;
    auto bays = Json::array();
    for (const BayWindow& b : w.bays)
      bays.push_back(
          {{"side", side_name(b.side)},
           {"bay", b.bay + 1},
           {"expected_mm", json_number(b.expected * mm, "stages.go_on.expected")},
           {"sag_mm",
            {json_number(b.least * mm, "stages.go_on.least"), json_number(b.most * mm, "stages.go_on.most")}}});
    return {{"to_stage_degF", json_number(stage_degF(p, w.next), "stages.go_on.next")},
            {"only_by_reading", w.needed},
            {"weight_g", json_number(w.weight * 1e3, "stages.go_on.weight")},
            {"every_bay_between", bays},
            {"damaged_at_worst", json_number(w.damage, "stages.go_on.damage")},
            {"within_limits_of_distortion_at_worst", json_number(w.shape, "stages.go_on.shape")},
            {"reads_inside", json_number(w.inside, "stages.go_on.inside")}};
  }
  return nullptr;
}

}  // namespace

Json read_json(const Plan& p) {
  const ReadingsTold& told = p.read;
  if (told.readings.empty()) return nullptr;
  auto list = Json::array(), stages = Json::array();
  for (const ReadingsTold::Of& r : told.readings) {
    if (r.reading.shape) {
      list.push_back({{"stage_degF", json_number(stage_degF(p, r.reading.stage), "read.stage")},
                      {"what", viz::limit_text(*r.reading.shape)},
                      {"value_mm", json_number(r.reading.value * mm, "read.value")},
                      {"expected_mm", r.expected ? json_number(*r.expected * mm, "read.expected") : Json(nullptr)},
                      {"contradicts", r.contradicts}});
      continue;
    }
    list.push_back({{"stage_degF", json_number(stage_degF(p, r.reading.stage), "read.stage")},
                    {"side", side_name(r.reading.side)},
                    {"bay", r.reading.bay + 1},
                    {"tone_Hz", r.reading.tone > 0 ? json_number(r.reading.tone, "read.tone") : Json(nullptr)},
                    {"weight_g", json_number(r.reading.weight * 1e3, "read.weight")},
                    {"sag_mm", json_number(r.reading.sag * mm, "read.sag")},
                    {"expected_mm", r.expected ? json_number(*r.expected * mm, "read.expected") : Json(nullptr)},
                    {"contradicts", r.contradicts}});
  }
  auto inputs = Json::array();
  for (const ReadingsTold::Input& i : told.inputs)
    inputs.push_back({{"input", viz::unsure_text(i.what)},
                      {"mean_sigmas", json_number(i.mean, "read.inputs.mean")},
                      {"sigma_over_stated", json_number(i.sigma, "read.inputs.sigma")}});
  for (size_t s = 0; s < told.damage.size(); ++s)
    stages.push_back({{"stage_degF", json_number(stage_degF(p, static_cast<int>(s)), "read.stages")},
                      {"damaged_by", json_number(told.damage[s], "read.damage")},
                      {"within_limits_of_distortion_up_to", json_number(told.shape[s], "read.shape")}});
  return {{"used", told.used},
          {"readings", list},
          {"pull_times", json_number(told.pull_times, "read.pull_times")},
          {"tighter_than_98_of_100", told.tighter_than_any},
          {"looser_than_98_of_100", told.looser_than_any},
          {"inputs", inputs},
          {"given_these", stages}};
}

// What each wire of the frame pulled in a stage.
static Json wires_json(const Plan& p, const StageSummary& s) {
  auto list = Json::array();
  for (const WirePull& w : s.wires)
    list.push_back({{"name", p.the_case.braces[static_cast<size_t>(w.brace)].name},
                    {"least_N", json_number(w.least, "stages.wires.least")},
                    {"most_N", json_number(w.most, "stages.wires.most")},
                    {"end_N", unless(!s.settled, w.end, "stages.wires.end")}});
  return list;
}

Json stages_json(const Plan& p) {
  auto list = Json::array();
  for (const auto& s : p.stages)
    list.push_back({{"stage_degF", json_number(stage_degF(p, s.stage), "stages.stage_degF")},
                    {"done", s.done},
                    {"passes_limits", s.done ? Json(nullptr) : Json(s.passes)},
                    {"gave_way", s.gave_way},
                    {"worst_use", unless(s.done || s.gave_way, s.worst_use, "stages.worst_use")},
                    {"mean_pull_N_per_m",
                     {{"warp", both_sides(s, s.mean_pull_warp, "stages.mean_pull.warp")},
                      {"fill", both_sides(s, s.mean_pull_fill, "stages.mean_pull.fill")},
                      {"chordwise", both_sides(s, s.mean_pull_chord, "stages.mean_pull.chordwise")},
                      {"spanwise", both_sides(s, s.mean_pull_span, "stages.mean_pull.spanwise")}}},
                    {"unevenness",
                     {{"chordwise", uneven(s, &Unevenness::chord, "stages.unevenness.chordwise")},
                      {"spanwise", uneven(s, &Unevenness::span, "stages.unevenness.spanwise")}}},
                    {"loose_share", unless(!s.settled, s.loose_share, "stages.loose_share")},
                    {"loose_zones", loose_zones(p, s)},
                    {"mean_pull_plus_minus_N_per_m", pull_bars(s)},
                    {"worst_slip_mm", json_number(s.worst_slip * mm, "stages.worst_slip")},
                    {"worst_slip_plus_minus_mm", error_bar_json(s.slip_study, mm)},
                    {"studies", stage_studies(s)},
                    {"to_be_read", shape_json(p, s.stage)},
                    {"twist_deg", unless(!s.settled, s.twist * degrees_per_radian, "stages.twist")},
                    {"bows_at_once", bows(s)},
                    {"buckling_factor", json_number(s.buckling_factor, "stages.buckling_factor")},
                    {"buckling_shape", buckling_shape(p, s)},
                    {"sag_between_ribs", sag(s)},
                    {"wires", wires_json(p, s)},
                    {"weight_and_tap", weight_and_tap(p, s.stage)},
                    {"go_on", go_on_json(p, s.stage)}});
  return list;
}

}  // namespace evenpull
