#include "viz/pictures/sag_picture.hpp"

#include "viz/panel/bands.hpp"
#include "viz/panel/marks.hpp"
#include "viz/panel/skin_drawing.hpp"
#include "viz/panel/zone_means.hpp"
#include "viz/panel/zone_words.hpp"
#include "viz/pictures/skin_picture.hpp"
#include "viz/words/check_words.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

constexpr double margin = SkinPicture::margin, type = SkinPicture::type;
constexpr double legend_height = 190;
constexpr int wanted_bands = 10;
// A scale that shows a hair's breadth would only show the mesh.
constexpr double least_scale = 1e-3;  // m
// Share of a band below which outward cloth does not open one more.
constexpr double worth_a_band = 0.25;
constexpr double ring = 40, ring_sample = 13;  // px, wide enough to go round the words of a zone

/// From below zero where cloth stands out of the profile, in one step throughout.
Bands sag_bands(const std::vector<float>& sag) {
  double most = least_scale, least = 0;
  for (float s : sag) {
    most = std::max(most, static_cast<double>(s));
    least = std::min(least, static_cast<double>(s));
  }
  const Bands even = round_bands(std::max(most, -least), wanted_bands);
  const double step = even.bounds[1] - even.bounds[0];
  Bands bands;
  for (int i = -static_cast<int>(std::ceil(-least / step - worth_a_band)); i < std::ceil(most / step - 1e-9) + 1; ++i)
    bands.bounds.push_back(i * step);
  return bands;
}

/// A trace below zero is no contour.
std::vector<float> without_traces(std::vector<float> sag, const Bands& bands) {
  const double trace = worth_a_band * (bands.bounds[1] - bands.bounds[0]);
  for (float& s : sag)
    if (s < 0 && s > -trace) s = 0;
  return sag;
}

double largest_in(const Panel& panel, const Zone& zone, const std::vector<float>& sag) {
  double most = -1e9;
  for (int q : zone.quads)
    for (int n : panel.quads[q].nodes) most = std::max(most, static_cast<double>(sag[n]));
  return most;
}

/// The cloth node where the profile is thinnest against the ribs; -1 if there is none.
int place_of(const Panel& panel, const Snapshot& now, const ThicknessLoss& loss, Side side) {
  if (loss.bay < 0 || loss.bay >= panel.bays) return -1;
  int best = -1;
  double nearest = 1e9;
  const int first = panel.rib_columns[loss.bay] + (panel.carried_from(loss.bay) == loss.bay ? 1 : 0);
  for (int j = first; j < panel.rib_columns[loss.bay + 1]; ++j)
    for (int i = 1; i < panel.last_row(loss.bay); ++i) {
      if (panel.nodes[panel.node(side, i, j)].absent) continue;
      const double off = std::abs(now.sag[panel.node(Side::top, i, j)] - loss.top) +
                         std::abs(now.sag[panel.node(Side::bottom, i, j)] - loss.bottom);
      if (off < nearest) nearest = off, best = panel.node(side, i, j);
    }
  return best;
}

void draw_ring(cairo_t* cr, Point at, double radius) {
  for (const auto& [ink, width] : {std::pair{white, 7.0}, std::pair{black, 3.0}}) {
    cairo_arc(cr, at.x, at.y, radius, 0, 2 * M_PI);
    set_ink(cr, ink);
    cairo_set_line_width(cr, width);
    cairo_stroke(cr);
  }
}

}  // namespace

void write_sag_picture(const Plan& plan, int stage, const std::string& path) {
  const Panel& panel = plan.panel;
  const Snapshot& now = *stage_end(plan, stage);
  const Bands bands = sag_bands(now.sag);
  const double map = map_height(panel), width = SkinPicture::width - 2 * margin;
  ThicknessLoss loss;
  for (const StageSummary& s : plan.stages)
    if (s.stage == stage) loss = s.thickness_loss;
  write_png(path, {SkinPicture::width, SkinPicture::head_height + map + legend_height}, [&](cairo_t* cr) {
    draw_picture_head(cr, plan, stage,
                      "Sag between ribs after " + degrees_both(plan.the_case.stages[stage].temperature),
                      "Numbers: largest sag in each zone in inches.");
    const SkinView view = fit_skins(panel, {margin, SkinPicture::head_height, width, map}, type);
    draw_node_bands(cr, panel, view, without_traces(now.sag, bands), bands, 1);
    draw_zone_lines(cr, panel, view, 2.4);
    draw_skin_frame(cr, panel, view, type);
    const bool thinner = loss.loss >= least_loss_said;
    for (Side side : {Side::top, Side::bottom})
      if (const int n = place_of(panel, now, loss, side); thinner && n >= 0)
        draw_ring(cr, view.at(panel.nodes[n]), ring);
    draw_zone_words(cr, panel, view, 18, 26, [&](const Zone& zone) {
      double most = largest_in(panel, zone, now.sag);
      if (std::abs(most) < 5e-5) most = 0;
      return ZoneWords{fmt::format("{:.2f}", inches(most)), zone.label, black, true};
    });
    const double y = SkinPicture::head_height + map + 16;
    draw_length_bar(cr, {margin, y, 0.44 * SkinPicture::width, 5 * type}, bands, type);
    const double x = margin + 0.48 * SkinPicture::width, words = SkinPicture::width - margin - x - 40;
    if (thinner) draw_ring(cr, {x + ring_sample, y + 16}, ring_sample);
    const double height = draw_text(cr, {x + 40, y}, thickness_sentence(loss), {.size = type, .width = words}).height;
    draw_text(cr, {x + 40, y + height + 6},
              std::string("Sag: how far the cloth lies inside a straightedge laid along the span from rib to rib.") +
                  (bands.bounds.front() < 0 ? " Below zero it stands out." : ""),
              {.size = type, .width = words});
  });
}

}  // namespace evenpull::viz
