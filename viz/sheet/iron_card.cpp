#include "viz/sheet/iron_card.hpp"

#include "viz/kit/text.hpp"
#include "viz/sheet/sheet_flow.hpp"
#include "viz/words/wording.hpp"

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
constexpr double title_room = 60;  ///< height; a longer title is cut short

/// Half of letter and of A4 (A5), in points.
Extent half_of(Paper paper) { return paper == Paper::a4 ? Extent{419.53, 595.28} : Extent{396, 612}; }

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

/// Pages of half a sheet, each with its head and foot; nearly always one.
class CardPages {
 public:
  CardPages(cairo_t* cr, const IronCard& card, Extent page, std::string version)
      : cr_(cr), card_(card), page_(page), version_(std::move(version)), width(page.width - 2 * margin) {
    begin();
  }
  /// Makes room for that much, on a new page if need be; gives where it begins.
  double take(double height) {
    if (y + height > bottom && y > top_) {
      end_page(cr_);
      begin();
    }
    const double at = y;
    y += height;
    return at;
  }
  double left() const { return bottom - y; }

 private:
  void begin() {
    y = margin;
    draw_text(cr_, {margin + width, y + 7}, "evenpull " + version_, {.align = Align::right});
    y += draw_text(cr_, {margin, y}, "Iron check", {.size = title_type, .bold = true}).height;
    auto title = split_by_height(cr_, card_.title, {.width = width}, title_room);
    if (title.size() > 1) title.front() += "…";
    y += draw_text(cr_, {margin, y}, title.front(), {.width = width}).height + gap;
    const double foot =
        page_.height - margin - measure_text(cr_, airworthy_sentence, {.bold = true, .width = width}).height;
    const double line = foot - gap;
    draw_text(cr_, {margin, line - least_type - 6}, "read by, date, thermometer");
    stroke_line(cr_, {margin + 0.5 * width, line - 2}, {margin + width, line - 2}, 0.8);
    draw_text(cr_, {margin, foot}, std::string(airworthy_sentence) + ".", {.width = width});
    bottom = foot - 2 * least_type - 2 * gap;
    top_ = y;
  }

  cairo_t* cr_;
  const IronCard& card_;
  Extent page_;
  std::string version_;
  double top_ = 0;

 public:
  const double width;
  double y = 0, bottom = 0;
};

/// The table of stages.
void draw_stages(cairo_t* cr, const IronCard& card, CardPages& pages) {
  const double width = pages.width;
  const bool hold = std::any_of(card.stages.begin(), card.stages.end(), [](const auto& s) { return !s.hold.empty(); });
  constexpr double larger_mark = 3;
  const double columns[] = {0, 0.20 * width, 0.42 * width, hold ? 0.80 * width : width};
  const auto row = [&](const std::string& a, const std::string& b, const std::string& c, const std::string& d,
                       double size, bool bold) {
    const std::string* cells[] = {&a, &b, &c, &d};
    const auto each = [&](double y, bool measure_only) {
      double h = 0;
      for (int i = 0; i < (hold ? 4 : 3); ++i) {
        const TextStyle style{.size = i == 1 && !bold ? size + larger_mark : size,
                              .bold = bold || i == 1,
                              .width = (i < 3 ? columns[i + 1] : width) - columns[i] - 4};
        // All on one base line.
        const Point at{margin + columns[i], y + (i == 1 || bold ? 0 : larger_mark)};
        h = std::max(h,
                     (measure_only ? measure_text(cr, *cells[i], style) : draw_text(cr, at, *cells[i], style)).height);
      }
      return h;
    };
    each(pages.take(each(0, true) + 3), false);
  };
  row("stage", "dial mark", "sole will swing", "hold", least_type, true);
  stroke_line(cr, {margin, pages.y - 1}, {margin + width, pages.y - 1}, 1);
  for (const auto& s : card.stages)
    row(degrees_f(s.temperature), s.mark, s.band + (s.warn ? "  !" : ""), s.hold, table_type - 2, false);
}

void draw_card(cairo_t* cr, const IronCard& card, Extent page, const std::string& version) {
  CardPages pages(cr, card, page, version);
  draw_stages(cr, card, pages);
  pages.y += gap;
  for (const auto& warning : card.warnings) {
    const TextStyle style{.bold = true, .width = pages.width};
    for (const auto& part : split_by_height(cr, warning, style, (pages.bottom - margin) / 2)) {
      const double height = measure_text(cr, part, style).height + 3;
      draw_text(cr, {margin, pages.take(height)}, part, style);
    }
  }
  if (!card.warnings.empty()) pages.y += gap / 2;
  const double room = pages.left() - measure_items(cr, card.notes, pages.width) - gap;
  if (can_be_drawn(card) && room >= least_graph) {
    const double height = std::min(room, most_graph);
    draw_graph(cr, card, {margin, pages.take(height), pages.width, height});
    pages.y += gap;
  }
  for (const auto& note : card.notes)
    for (const auto& part : split_by_height(cr, note, {.width = pages.width - gap}, (pages.bottom - margin) / 2)) {
      const double height = measure_items(cr, {part}, pages.width);
      draw_items(cr, {margin, pages.take(height)}, {part}, pages.width);
    }
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
