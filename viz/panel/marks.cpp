#include "viz/panel/marks.hpp"

#include "viz/panel/skin_drawing.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace evenpull::viz {

namespace {

// Less than a hair's breadth of slip is not worth an arrow.
constexpr double least_slip_drawn = 5e-5;  // m

void draw_bar_boxes(cairo_t* cr, Box bar, const Bands& bands) {
  const double w = bar.width / bands.count();
  for (int i = 0; i < bands.count(); ++i) {
    const Box box{bar.x + i * w, bar.y, w, bar.height};
    fill_box(cr, box, bands.colour(i));
    stroke_box(cr, box, 1);
  }
}

using Words = std::function<std::string(double)>;

/// Every how manieth limit can be said without the words touching.
int label_step(cairo_t* cr, Box bar, const Bands& bands, double type_size, bool open_end, const Words& words) {
  const double widest = measure_text(cr, words(bands.bounds.back()) + (open_end ? "+" : ""), {.size = type_size}).width;
  return std::max(1, static_cast<int>(std::ceil(1.25 * widest * bands.count() / bar.width)));
}

void draw_bounds(cairo_t* cr, Box bar, const Bands& bands, double y, double type_size, int each, bool open_end,
                 const Words& words, int first = 0) {
  const double w = bar.width / bands.count();
  for (int i = first; i <= bands.count(); i += each)
    draw_centred(cr, {bar.x + i * w, y}, words(bands.bounds[i]) + (open_end && i == bands.count() ? "+" : ""),
                 {.size = type_size});
}

}  // namespace

void draw_slip_arrows(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<float>& slip,
                      double longest, double type_size) {
  if (!(longest > 0)) return;
  const int last = panel.rows - 1;
  // The words "trailing edge" stand in the gap.
  const double words = measure_text(cr, "trailing edge", {.size = type_size}).width / 2 + 0.6 * type_size;
  const Point words_at = edge_words_place(panel, view);
  // One arrow at the middle of each half bay: enough to see the run of it, clear of the words in the middle.
  for (std::size_t b = 0; b + 1 < panel.rib_columns.size(); ++b) {
    const int from = panel.rib_columns[b], to = panel.rib_columns[b + 1];
    for (int part : {1, 3}) {
      const int column = from + (to - from) * part / 4;
      const double q = slip[column];
      if (std::abs(q) < least_slip_drawn) continue;
      const Point top = view.at(panel.nodes[panel.node(Side::top, last, column)]);
      const Point bottom = view.at(panel.nodes[panel.node(Side::bottom, last, column)]);
      const Point middle{(top.x + bottom.x) / 2, (top.y + bottom.y) / 2};
      const double along = view.way() == SkinView::Way::stacked ? middle.x - words_at.x : middle.y - words_at.y;
      if (std::abs(along) < words) continue;
      const double away = std::hypot(top.x - bottom.x, top.y - bottom.y);
      const double half = std::max(0.18, 0.48 * std::min(1.0, std::abs(q) / longest)) * std::min(away, 3 * type_size);
      const double ux = (top.x - bottom.x) / away, uy = (top.y - bottom.y) / away, sign = q > 0 ? 1 : -1;
      draw_arrow(cr, {middle.x - sign * half * ux, middle.y - sign * half * uy},
                 {middle.x + sign * half * ux, middle.y + sign * half * uy}, 0.16 * type_size, 0.55 * type_size);
    }
  }
}

namespace {

struct Unit {
  const char* name;
  Words words;
};

void draw_bar_both(cairo_t* cr, Box box, const Bands& bands, bool open_end, double type_size, const Unit& upper,
                   const Unit& lower) {
  const double unit_room = 4.2 * type_size;
  const Box bar{box.x + unit_room, box.y + 1.5 * type_size, box.width - 2 * unit_room, 1.4 * type_size};
  draw_bar_boxes(cr, bar, bands);
  const double above = bar.y - 0.75 * type_size, below = bar.bottom() + 0.8 * type_size;
  // Both rows name the same limits.
  const int each = std::max(label_step(cr, bar, bands, type_size, open_end, upper.words),
                            label_step(cr, bar, bands, type_size, open_end, lower.words));
  // Zero, where it stands within the scale, is among them.
  const auto zero = std::lower_bound(bands.bounds.begin(), bands.bounds.end(), 0.0) - bands.bounds.begin();
  const int first = static_cast<int>(zero) % each;
  draw_bounds(cr, bar, bands, above, type_size, each, open_end, upper.words, first);
  draw_bounds(cr, bar, bands, below, type_size, each, open_end, lower.words, first);
  draw_text(cr, {box.x, above - 0.6 * type_size}, upper.name, {.size = type_size, .bold = true});
  draw_text(cr, {box.x, below - 0.6 * type_size}, lower.name, {.size = type_size, .bold = true});
}

}  // namespace

void draw_pull_bar(cairo_t* cr, Box box, const Bands& bands, bool open_end, double type_size) {
  draw_bar_both(cr, box, bands, open_end, type_size,
                {"lb/in", [](double v) { return fmt::format("{:.1f}", pounds_per_inch(v)); }},
                {"N/m", [](double v) { return fmt::format("{:.0f}", v); }});
}

void draw_length_bar(cairo_t* cr, Box box, const Bands& bands, double type_size) {
  // Steps below these need one more decimal to be told apart.
  constexpr double fine_inches = 0.5e-3, fine_millimetres = 0.95e-3;
  const double step = bands.bounds[1] - bands.bounds[0];
  const int in = step < fine_inches ? 3 : 2, mm = step < fine_millimetres ? 1 : 0;
  draw_bar_both(cr, box, bands, false, type_size,
                {"in", [in](double v) { return fmt::format("{:.{}f}", inches(v), in); }},
                {"mm", [mm](double v) { return fmt::format("{:.{}f}", 1000 * v, mm); }});
}

namespace {

void draw_bar_below(cairo_t* cr, Box box, const Bands& bands, bool open_end, double type_size, const Words& words) {
  const Box bar{box.x, box.y, box.width, 1.4 * type_size};
  draw_bar_boxes(cr, bar, bands);
  draw_bounds(cr, bar, bands, bar.bottom() + 0.8 * type_size, type_size,
              label_step(cr, bar, bands, type_size, open_end, words), open_end, words);
}

}  // namespace

void draw_use_bar(cairo_t* cr, Box box, const Bands& bands, double type_size) {
  draw_bar_below(cr, box, bands, true, type_size, [](double v) { return fmt::format("{:.1f}", v); });
}

void draw_chance_bar(cairo_t* cr, Box box, const Bands& bands, double type_size) {
  draw_bar_below(cr, box, bands, false, type_size, [](double v) { return fmt::format("{:.0f} %", v); });
}

}  // namespace evenpull::viz
