#include "viz/sheet/iron_card.hpp"

#include "viz/kit/text.hpp"
#include "viz/sheet/half_page.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

using namespace viz;

constexpr double least_graph = 90, most_graph = 250;
constexpr double axis_room = 36;
constexpr double grid_degF = 50;

class Graph {
 public:
  Graph(const IronCard& card, Box box) : box_(box) {
    low_ = card.curve.front().dial, high_ = card.curve.back().dial;
    for (const auto& p : card.curve) reach(p.temperature - p.plus_minus), reach(p.temperature + p.plus_minus);
    for (const auto& d : card.readings) reach(d.temperature);
    cold_ = std::floor(cold_ / grid_degF) * grid_degF, hot_ = std::ceil(hot_ / grid_degF) * grid_degF;
  }
  Point at(double dial, double kelvin) const {
    return {box_.x + (dial - low_) / (high_ - low_) * box_.width,
            box_.bottom() - (fahrenheit(kelvin) - cold_) / (hot_ - cold_) * box_.height};
  }
  double cold() const { return cold_; }
  double hot() const { return hot_; }

 private:
  void reach(double kelvin) { cold_ = std::min(cold_, fahrenheit(kelvin)), hot_ = std::max(hot_, fahrenheit(kelvin)); }
  Box box_;
  double low_ = 0, high_ = 1, cold_ = 1e9, hot_ = -1e9;
};

double kelvin(double degF) { return (degF + 459.67) / 1.8; }

void draw_graph(cairo_t* cr, const IronCard& card, const Box& all) {
  const Box box{all.x + axis_room, all.y + 4, all.width - axis_room - 6, all.height - 38};
  const Graph g(card, box);
  const double left = card.curve.front().dial, right = card.curve.back().dial;
  cairo_new_path(cr);
  for (const auto& p : card.curve) {
    const Point q = g.at(p.dial, p.temperature + p.plus_minus);
    cairo_line_to(cr, q.x, q.y);
  }
  for (auto p = card.curve.rbegin(); p != card.curve.rend(); ++p) {
    const Point q = g.at(p->dial, p->temperature - p->plus_minus);
    cairo_line_to(cr, q.x, q.y);
  }
  cairo_close_path(cr);
  set_ink(cr, pale);
  cairo_fill(cr);
  for (double f = g.cold(); f <= g.hot() + 1e-9; f += grid_degF) {
    stroke_line(cr, g.at(left, kelvin(f)), g.at(right, kelvin(f)), 0.4, grey);
    const Point p = g.at(left, kelvin(f));
    draw_text(cr, {p.x - 4, p.y - 7}, fmt::format("{:.0f}", f), {.align = Align::right});
  }
  for (double d = std::ceil(left); d <= right; d += std::max(1.0, std::ceil((right - left) / 8)))
    draw_text(cr, {g.at(d, kelvin(g.cold())).x, box.bottom() + 3}, fmt::format("{:.0f}", d), {.align = Align::centre});
  draw_text(cr, {box.x + box.width / 2, box.bottom() + 17}, "dial mark", {.align = Align::centre});
  draw_text(cr, {box.x + 4, box.y}, "true °F; grey: 95 % of the mean");
  for (std::size_t i = 1; i < card.curve.size(); ++i)
    stroke_line(cr, g.at(card.curve[i - 1].dial, card.curve[i - 1].temperature),
                g.at(card.curve[i].dial, card.curve[i].temperature), 1.4);
  for (const auto& d : card.readings) {
    const Point p = g.at(d.dial, d.temperature);
    cairo_arc(cr, p.x, p.y, 2.2, 0, 2 * M_PI);
    set_ink(cr, black);
    cairo_fill(cr);
  }
}

/// A curve over one mark only has no width to be drawn in.
bool can_be_drawn(const IronCard& card) {
  return !card.curve.empty() && card.curve.front().dial < card.curve.back().dial;
}

/// The table of stages.
void draw_stages(const IronCard& card, HalfPages& pages) {
  const bool hold = std::any_of(card.stages.begin(), card.stages.end(), [](const auto& s) { return !s.hold.empty(); });
  std::vector<HalfPageColumn> columns{
      {"stage", 0.20}, {"dial mark", 0.22, true}, {"sole will swing", hold ? 0.38 : 0.58}};
  if (hold) columns.push_back({"hold", 0.20});
  std::vector<std::vector<std::string>> rows;
  for (const auto& s : card.stages) {
    rows.push_back({degrees_f(s.temperature), s.mark, s.band + (s.warn ? "  !" : "")});
    if (hold) rows.back().push_back(s.hold);
  }
  pages.table(columns, rows);
}

void draw_card(cairo_t* cr, const IronCard& card, Extent page, const std::string& version) {
  HalfPages pages(cr, {"Iron check", card.title, version, "read by, date, thermometer"}, page);
  draw_stages(card, pages);
  pages.gap();
  pages.warnings(card.warnings);
  if (!card.warnings.empty()) pages.gap(HalfPages::usual_gap / 2);
  const double room = pages.left() - pages.height_of_notes(card.notes) - HalfPages::usual_gap;
  if (can_be_drawn(card) && room >= least_graph) {
    const double height = std::min(room, most_graph);
    draw_graph(cr, card, {HalfPages::margin, pages.take(height), pages.width, height});
    pages.gap();
  }
  pages.notes(card.notes);
}

}  // namespace

void write_iron_card(const IronCard& card, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = half_of(paper);
  write_pdf(path, page, "Iron check: " + card.title, [&](cairo_t* cr) {
    draw_card(cr, card, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
