#include "viz/sheet/tiles.hpp"

#include "viz/kit/text.hpp"
#include "viz/words/blanket_words.hpp"

#include <cairo.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

using namespace viz;

constexpr double points_per_mm = 72 / 25.4;
// Printers leave out some 5 mm at the edges; neighbours share a strip to be glued. All mm.
constexpr double tile_margin = 12, tile_shared = 10, tile_foot = 22, tile_mark = 4;
constexpr double cut_pen = 0.6, other_pen = 0.25, tile_pen = 0.1;  // mm

struct TileGrid {
  double width = 0, height = 0;  ///< of the window, mm
  int columns = 0, rows = 0;
  double step_x() const { return width - tile_shared; }
  double step_y() const { return height - tile_shared; }
};

Extent tile_page(Paper paper) { return paper == Paper::a4 ? Extent{210, 297} : Extent{215.9, 279.4}; }

TileGrid tiles_of(const TrueDrawing& d, Extent page) {
  TileGrid g{page.width - 2 * tile_margin, page.height - 2 * tile_margin - tile_foot, 0, 0};
  const auto count = [](double whole, double window, double step) {
    return std::max(1, 1 + static_cast<int>(std::ceil((whole - window) / step - 1e-9)));
  };
  g.columns = count(d.width, g.width, g.step_x()), g.rows = count(d.height, g.height, g.step_y());
  return g;
}

bool crosses(const TrueLine& l, double x, double y, const TileGrid& g) {
  constexpr double pace = 2;  // mm
  const std::size_t n = l.points.size();
  for (std::size_t i = 0; i + (l.closed ? 0 : 1) < n; ++i) {
    const auto &a = l.points[i], &b = l.points[(i + 1) % n];
    const int steps = 1 + static_cast<int>(std::hypot(b.first - a.first, b.second - a.second) / pace);
    for (int k = 0; k <= steps; ++k) {
      const double t = static_cast<double>(k) / steps, px = a.first + t * (b.first - a.first),
                   py = a.second + t * (b.second - a.second);
      if (px >= x && px <= x + g.width && py >= y && py <= y + g.height) return true;
    }
  }
  return false;
}

void stroke_true(cairo_t* cr, const TrueLine& l) {
  cairo_new_path(cr);
  for (const auto& [x, y] : l.points) cairo_line_to(cr, x, y);
  if (l.closed) cairo_close_path(cr);
  const double dash[] = {4, 2};
  if (l.layer == "GLUE-LINE") cairo_set_dash(cr, dash, 2, 0);
  set_ink(cr, black);
  cairo_set_line_width(cr, l.layer == "CUT" ? cut_pen : other_pen);
  cairo_stroke(cr);
  cairo_set_dash(cr, nullptr, 0, 0);
}

// Where two sheets meet: a line in the middle of the strip they share, a ring on it that both halves make whole.
void draw_meeting_lines(cairo_t* cr, const TileGrid& g, int row, int column) {
  const double half = tile_shared / 2;
  const auto meet = [&](Point from, Point to) {
    stroke_line(cr, from, to, tile_pen, grey);
    cairo_new_path(cr);
    cairo_arc(cr, (from.x + to.x) / 2, (from.y + to.y) / 2, tile_mark, 0, 2 * M_PI);
    cairo_stroke(cr);
  };
  if (column > 0) meet({half, 0}, {half, g.height});
  if (column + 1 < g.columns) meet({g.width - half, 0}, {g.width - half, g.height});
  if (row > 0) meet({0, half}, {g.width, half});
  if (row + 1 < g.rows) meet({0, g.height - half}, {g.width, g.height - half});
}

void draw_tile(cairo_t* cr, const TrueDrawing& d, const TileGrid& g, int row, int column, const std::string& version) {
  cairo_save(cr);
  cairo_scale(cr, points_per_mm, points_per_mm);
  cairo_translate(cr, tile_margin, tile_margin);
  cairo_save(cr);
  cairo_rectangle(cr, 0, 0, g.width, g.height);
  cairo_clip(cr);
  draw_meeting_lines(cr, g, row, column);
  cairo_translate(cr, -column * g.step_x(), -row * g.step_y());
  for (const TrueLine& l : d.lines) stroke_true(cr, l);
  cairo_restore(cr);
  TrueDrawing foot;
  add_check_bar(foot, 0, g.height + tile_foot - 6, "");
  for (const TrueLine& l : foot.lines) stroke_true(cr, l);
  cairo_restore(cr);
  const double y = points_per_mm * (tile_margin + g.height + 1);
  const TextStyle bold{.bold = true};
  const std::string words = tile_words(d.title, row, column, g.rows, g.columns), made_by = "evenpull " + version;
  const double room = points_per_mm * g.width - measure_text(cr, made_by).width - least_type;
  draw_text(cr, {points_per_mm * tile_margin, y}, cut_to_width(cr, words, bold, room), bold);
  draw_text(cr, {points_per_mm * (tile_margin + check_bar + 4), y + 1.6 * least_type}, tile_check_words(),
            {.width = points_per_mm * (g.width - check_bar - 4)});
  draw_text(cr, {points_per_mm * (tile_margin + g.width), y}, made_by, {.align = Align::right});
}

}  // namespace

void write_tiles(const std::vector<TrueDrawing>& drawings, Paper paper, const std::string& version,
                 const std::string& path) {
  const Extent page = tile_page(paper);
  write_pdf(path, {points_per_mm * page.width, points_per_mm * page.height}, tile_title(), [&](cairo_t* cr) {
    for (const TrueDrawing& d : drawings) {
      const TileGrid g = tiles_of(d, page);
      for (int row = 0; row < g.rows; ++row)
        for (int column = 0; column < g.columns; ++column) {
          const double x = column * g.step_x(), y = row * g.step_y();
          if (std::none_of(d.lines.begin(), d.lines.end(), [&](const TrueLine& l) { return crosses(l, x, y, g); }))
            continue;
          draw_tile(cr, d, g, row, column, version);
          end_page(cr);
        }
    }
  });
}

}  // namespace evenpull
