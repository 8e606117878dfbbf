#include "viz/iron_card.hpp"

#include "viz/sheet_flow.hpp"
#include "viz/text.hpp"
#include "viz/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

using namespace viz;

constexpr double margin = 30, title_type = 17, table_type = 15, gap = 8;
constexpr double least_graph = 90, most_graph = 250;
constexpr double axis_room = 36;
constexpr double grid_degF = 50;

/// Half of letter and of A4 (A5), in points.
Extent half_of(Paper paper) {
  return paper == Paper::a4 ? Extent{419.53, 595.28} : Extent{396, 612};
}

/// The table of stages; gives the y below it.
double draw_stages(cairo_t* cr, const IronCard& card, double y, double width) {
  const bool hold = std::any_of(card.stages.begin(), card.stages.end(), [](const auto& s) { return !s.hold.empty(); });
  constexpr double larger_mark = 3;
  const double columns[] = {0, 0.20 * width, 0.42 * width, hold ? 0.80 * width : width};
  const auto row = [&](const std::string& a, const std::string& b, const std::string& c, const std::string& d, double size, bool bold) {
    double h = 0;
    const std::string* cells[] = {&a, &b, &c, &d};
    for (int i = 0; i < (hold ? 4 : 3); ++i)
      // All on one base line.
      h = std::max(h, draw_text(cr, {margin + columns[i], y + (i == 1 || bold ? 0 : larger_mark)}, *cells[i],
                                {.size = i == 1 && !bold ? size + larger_mark : size, .bold = bold || i == 1,
                                 .width = (i < 3 ? columns[i + 1] : width) - columns[i] - 4})
                          .height);
    y += h + 3;
  };
  row("stage", "dial mark", "sole will swing", "hold", least_type, true);
  stroke_line(cr, {margin, y - 1}, {margin + width, y - 1}, 1);
  for (const auto& s : card.stages)
    row(degrees_f(s.temperature), s.mark, s.band + (s.warn ? "  !" : ""), s.hold, table_type - 2, false);
  return y;
}

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
  void reach(double kelvin) {
    cold_ = std::min(cold_, fahrenheit(kelvin)), hot_ = std::max(hot_, fahrenheit(kelvin));
  }
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

void draw_card(cairo_t* cr, const IronCard& card, Extent page, const std::string& version) {
  const double width = page.width - 2 * margin;
  double y = margin;
  draw_text(cr, {margin + width, y + 7}, "evenpull " + version, {.align = Align::right});
  y += draw_text(cr, {margin, y}, "Iron check", {.size = title_type, .bold = true}).height;
  y += draw_text(cr, {margin, y}, card.title, {.width = width}).height + gap;
  y = draw_stages(cr, card, y, width) + gap;
  for (const auto& w : card.warnings) y += draw_text(cr, {margin, y}, w, {.bold = true, .width = width}).height + 3;
  if (!card.warnings.empty()) y += gap / 2;
  const double foot = page.height - margin - measure_text(cr, airworthy_sentence, {.bold = true, .width = width}).height;
  const double signature = 2 * least_type + gap;
  const double notes = measure_items(cr, card.notes, width);
  const double room = foot - signature - notes - 2 * gap - y;
  if (!card.curve.empty() && room >= least_graph) {
    const double height = std::min(room, most_graph);
    draw_graph(cr, card, {margin, y, width, height});
    y += height + gap;
  }
  y += draw_items(cr, {margin, y}, card.notes, width);
  const double line = foot - gap;
  draw_text(cr, {margin, line - least_type - 6}, "read by, date, thermometer");
  stroke_line(cr, {margin + 0.5 * width, line - 2}, {margin + width, line - 2}, 0.8);
  draw_text(cr, {margin, foot}, std::string(airworthy_sentence) + ".", {.width = width});
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
