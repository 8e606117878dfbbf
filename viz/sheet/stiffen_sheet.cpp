#include "viz/sheet/stiffen_sheet.hpp"

#include "viz/kit/colours.hpp"
#include "viz/sheet/half_page.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

using namespace viz;

constexpr double picture_most = 210, picture_margin = 26, mark_radius = 9.5, jaw = 4;
constexpr double row_type = least_type, number_column = 30, bar_height = 15, bar_words = 44, stiffen_row_gap = 9;
constexpr double most_use_shown = 2;  // longer bars end in an arrow head
const Colour after_ink = value_colour(0.35);

class FromAbove {
 public:
  FromAbove(const StiffenSheet& s, double width) {
    for (const StiffenLine& l : s.panel) take(l.x0, l.y0), take(l.x1, l.y1);
    const double across = std::max(1e-9, high_y_ - low_y_), deep = std::max(1e-9, high_x_ - low_x_);
    scale_ = std::min((width - 2 * picture_margin) / across, (picture_most - 2 * picture_margin) / deep);
    left_ = 0.5 * (width - scale_ * across);
  }
  double height() const { return scale_ * (high_x_ - low_x_) + 2 * picture_margin + least_type; }
  void stand_at(double x, double y) { left_ += x, top_ = y + picture_margin + least_type; }
  Point at(double x, double y) const { return {left_ + scale_ * (y - low_y_), top_ + scale_ * (x - low_x_)}; }

 private:
  void take(double x, double y) {
    low_x_ = std::min(low_x_, x), high_x_ = std::max(high_x_, x);
    low_y_ = std::min(low_y_, y), high_y_ = std::max(high_y_, y);
  }
  double low_x_ = 1e9, high_x_ = -1e9, low_y_ = 1e9, high_y_ = -1e9;
  double scale_ = 1, left_ = 0, top_ = 0;
};

// A square for what comes off, a circle for what stays.
void draw_number_mark(cairo_t* cr, Point p, const StiffenRow& row) {
  cairo_new_path(cr);
  if (row.comes_out) cairo_rectangle(cr, p.x - mark_radius, p.y - mark_radius, 2 * mark_radius, 2 * mark_radius);
  else cairo_arc(cr, p.x, p.y, mark_radius, 0, 2 * M_PI);
  set_ink(cr, row.comes_out ? white : black);
  cairo_fill_preserve(cr);
  set_ink(cr, black);
  cairo_set_line_width(cr, 1.4);
  cairo_stroke(cr);
  draw_centred(cr, p, std::to_string(row.number), {.bold = true, .colour = row.comes_out ? black : white});
}

void draw_stiffen_piece(cairo_t* cr, const FromAbove& view, const StiffenLine& l, bool comes_out) {
  const Point a = view.at(l.x0, l.y0), b = view.at(l.x1, l.y1);
  if (std::hypot(a.x - b.x, a.y - b.y) < 1) {
    fill_box(cr, {a.x - jaw, a.y - jaw, 2 * jaw, 2 * jaw}, black);
    return;
  }
  const double dash[] = {7, 4};
  if (comes_out) cairo_set_dash(cr, dash, 2, 0);
  stroke_line(cr, a, b, 4, after_ink);
  cairo_set_dash(cr, nullptr, 0, 0);
}

// Marks that would cover each other step aside along the span.
Point free_place(Point wanted, std::vector<Point>& taken, const Box& room) {
  const auto covered = [&](Point p) {
    return std::any_of(taken.begin(), taken.end(),
                       [&](Point q) { return std::hypot(p.x - q.x, p.y - q.y) < 2.3 * mark_radius; });
  };
  Point p = wanted;
  for (int step = 1; covered(p) && step < 40; ++step) {
    const double off = 2.4 * mark_radius * ((step + 1) / 2) * (step % 2 ? 1 : -1);
    p.x = std::clamp(wanted.x + off, room.x + mark_radius, room.right() - mark_radius);
  }
  taken.push_back(p);
  return p;
}

void draw_from_above(cairo_t* cr, const StiffenSheet& s, FromAbove view, const Box& box) {
  view.stand_at(box.x, box.y);
  draw_text(cr, {box.x, box.y}, "from above: inboard end left, leading edge up");
  for (const StiffenRow& row : s.rows)
    for (const StiffenLine& l : row.pieces) draw_stiffen_piece(cr, view, l, row.comes_out);
  for (const StiffenLine& l : s.panel)
    stroke_line(cr, view.at(l.x0, l.y0), view.at(l.x1, l.y1), l.edge ? 1.8 : 1, l.edge ? black : grey);
  std::vector<Point> taken;
  for (const StiffenRow& row : s.rows) {
    if (row.pieces.empty()) continue;
    const StiffenLine& l = row.pieces[row.pieces.size() / 2];
    const Point a = view.at(l.x0, l.y0), b = view.at(l.x1, l.y1);
    draw_number_mark(cr, free_place({(a.x + b.x) / 2, (a.y + b.y) / 2}, taken, box), row);
  }
}

// The use now as an open box, with it as a filled bar, the limit as an upright line.
void draw_bar(cairo_t* cr, const StiffenRow& row, const Box& box) {
  const double unit = box.width / most_use_shown;
  const auto length = [&](double use) { return unit * std::min(use, most_use_shown); };
  if (row.before > 0) stroke_box(cr, {box.x, box.y, length(row.before), box.height}, 0.8, grey);
  if (row.after > 0) fill_box(cr, {box.x, box.y + 3, length(row.after), box.height - 6}, after_ink);
  stroke_line(cr, {box.x + unit, box.y - 3}, {box.x + unit, box.bottom() + 3}, 2, black);
  const auto beyond = [&](double use) { return use > most_use_shown; };
  if (beyond(row.after) || beyond(row.before))
    draw_arrow(cr, {box.right() - 8, box.y + box.height / 2}, {box.right(), box.y + box.height / 2}, 1, 6);
}

double draw_stiffen_row(cairo_t* cr, const StiffenRow& row, Point at, double width, bool measure_only) {
  const double words = width - number_column, x = at.x + number_column;
  double y = at.y;
  const auto say = [&](const std::string& text, bool bold) {
    if (text.empty()) return;
    const TextStyle style{.size = row_type, .bold = bold, .width = words};
    y += (measure_only ? measure_text(cr, text, style) : draw_text(cr, {x, y}, text, style)).height;
  };
  say(row.what, true);
  std::string how = row.size;
  if (!row.stay.empty()) how += (how.empty() ? "" : "; ") + row.stay;
  say(how, false);
  if (!measure_only) draw_bar(cr, row, {x, y + 3, 0.32 * words, bar_height});
  const TextStyle beside{.size = row_type, .bold = true, .width = 0.65 * words};
  const double result = (measure_only ? measure_text(cr, row.result, beside)
                                      : draw_text(cr, {x + 0.35 * words, y + 1}, row.result, beside))
                            .height;
  y += std::max(result, bar_height + 6);
  say(row.worse, false);
  if (!measure_only) draw_number_mark(cr, {at.x + mark_radius + 1, at.y + mark_radius}, row);
  return y - at.y + stiffen_row_gap;
}

void draw_stiffen_sheet(cairo_t* cr, const StiffenSheet& s, Extent page, const std::string& version) {
  HalfPages pages(cr, {"Stiffening", s.title, version, "looked at by, date"}, page);
  pages.heading(s.headline);
  pages.warnings({s.because});
  pages.gap();
  const FromAbove view(s, pages.width);
  draw_from_above(cr, s, view, {HalfPages::margin, pages.take(view.height()), pages.width, view.height()});
  if (!s.rows.empty()) {
    pages.notes(
        {"Square: comes off before use. Circle: stays. Open box: use now; bar: use with it; upright line: the "
         "limit."});
    pages.gap();
  }
  for (const StiffenRow& row : s.rows) {
    const double height = draw_stiffen_row(cr, row, {0, 0}, pages.width, true);
    const double y = pages.take(height);
    draw_stiffen_row(cr, row, {HalfPages::margin, y}, pages.width, false);
  }
  pages.warnings(s.warnings);
  pages.gap();
  pages.notes(s.notes);
}

}  // namespace

void write_stiffen_sheet(const StiffenSheet& sheet, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = whole_of(paper);
  write_pdf(path, page, sheet.headline + ": " + sheet.title, [&](cairo_t* cr) {
    draw_stiffen_sheet(cr, sheet, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
