#include "viz/panel/attach_marks.hpp"

#include "viz/kit/colours.hpp"
#include "viz/kit/text.hpp"

#include <cairo.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {
namespace {

constexpr double marks_apart = 3.2;  // sizes, from one to the next

void draw_cross(cairo_t* cr, Point p, double half) {
  for (const double way : {-1.0, 1.0})
    stroke_line(cr, {p.x - half, p.y - way * half}, {p.x + half, p.y + way * half}, 0.35 * half + 0.6);
}

void draw_disc(cairo_t* cr, Point p, double half) {
  cairo_new_path(cr);
  cairo_arc(cr, p.x, p.y, half, 0, 2 * M_PI);
  set_ink(cr, black);
  cairo_fill(cr);
}

void draw_open_square(cairo_t* cr, Point p, double half) {
  const Box box{p.x - half, p.y - half, 2 * half, 2 * half};
  fill_box(cr, box, white);
  stroke_box(cr, box, 0.35 * half + 0.4);
}

void draw_one_fastening(cairo_t* cr, Point p, AttachHow how, double half) {
  if (how == AttachHow::laced) draw_cross(cr, p, half);
  if (how == AttachHow::riveted) draw_disc(cr, p, half);
  if (how == AttachHow::screwed) draw_open_square(cr, p, half);
}

}  // namespace

void draw_fastening(cairo_t* cr, Point from, Point to, AttachHow how, double size) {
  if (how == AttachHow::left) return;
  if (how == AttachHow::glued) {
    stroke_line(cr, from, to, size);
    return;
  }
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const int n = std::max(2, static_cast<int>(length / (marks_apart * size)));
  for (int i = 0; i < n; ++i) {
    const double t = (i + 0.5) / n;
    draw_one_fastening(cr, {from.x + t * (to.x - from.x), from.y + t * (to.y - from.y)}, how, 0.5 * size);
  }
}

void draw_moment(cairo_t* cr, Point at, const std::string& text, double type) {
  const TextStyle style{.size = type, .bold = true};
  const Extent size = measure_text(cr, text, style);
  const double radius = 0.5 * std::max(size.width, 0.8 * size.height) + 0.2 * type;
  cairo_new_path(cr);
  cairo_arc(cr, at.x, at.y, radius, 0, 2 * M_PI);
  set_ink(cr, white);
  cairo_fill_preserve(cr);
  set_ink(cr, black);
  cairo_set_line_width(cr, 0.1 * type);
  cairo_stroke(cr);
  draw_centred(cr, at, text, style);
}

}  // namespace evenpull::viz
