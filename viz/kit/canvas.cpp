#include "viz/kit/canvas.hpp"

#include "viz/kit/page_parts.hpp"
#include "viz/kit/text.hpp"
#include "viz/words/trouble.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <cctype>
#include <cmath>
#include <map>
#include <memory>
#include <new>

namespace evenpull::viz {

namespace {

// Two runs of the same plan must give the same bytes, so the file says the same day always. The day itself means
// nothing: the first one that PDF readers show without a fuss.
constexpr const char* fixed_date = "2000-01-01T00:00:00Z";

using SurfacePtr = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;
using ContextPtr = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;

SurfacePtr hold(cairo_surface_t* s) { return {s, cairo_surface_destroy}; }

/// The disk has no part in drawing: what goes wrong here is ours, or memory is short.
void throw_if_bad(cairo_status_t status, const std::string& path) {
  if (status == CAIRO_STATUS_SUCCESS) return;
  if (status == CAIRO_STATUS_NO_MEMORY) throw std::bad_alloc();
  throw CannotDraw("cannot draw " + path + ": " + cairo_status_to_string(status));
}

// Cairo writes to memory, and the file is written by us: closing a file that the disk has no room for, it does not notice
// that the last bytes are missing (seen with version 1.16).
cairo_status_t append(void* to, const unsigned char* data, unsigned size) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), size);
  return CAIRO_STATUS_SUCCESS;
}

/// Cairo numbers its surfaces through the life of the program; in a file the first one is number 1, whatever came before.
std::string with_surfaces_renumbered(const std::string& from) {
  const std::string word = "surface";
  std::string to;
  std::map<std::string, std::size_t> numbers;
  std::size_t at = 0;
  for (;;) {
    const auto found = from.find(word, at);
    if (found == std::string::npos) break;
    auto end = found + word.size();
    while (end < from.size() && std::isdigit(static_cast<unsigned char>(from[end]))) ++end;
    const auto number = numbers.try_emplace(from.substr(found, end - found), numbers.size() + 1).first->second;
    to.append(from, at, found - at).append(word).append(std::to_string(number));
    at = end;
  }
  return to.append(from, at);
}

// Text placed by unhinted metrics sits at the same place on paper and on a screen.
void prepare(cairo_t* cr) {
  std::unique_ptr<cairo_font_options_t, decltype(&cairo_font_options_destroy)> options(cairo_font_options_create(),
                                                                                       cairo_font_options_destroy);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(cr, options.get());
  cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
}

void draw_on(cairo_surface_t* surface, const std::string& path, const std::function<void(cairo_t*)>& draw) {
  ContextPtr cr(cairo_create(surface), cairo_destroy);
  prepare(cr.get());
  draw(cr.get());
  throw_if_bad(cairo_status(cr.get()), path);
}

std::function<void(cairo_t*)> on_white(const std::function<void(cairo_t*)>& draw) {
  return [&draw](cairo_t* cr) {
    set_ink(cr, white);
    cairo_paint(cr);
    draw(cr);
  };
}

}  // namespace

void write_pdf(const std::string& path, Extent page, const std::string& title,
               const std::function<void(cairo_t*)>& draw) {
  std::string bytes;
  auto surface = hold(cairo_pdf_surface_create_for_stream(append, &bytes, page.width, page.height));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, readable(title).c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, fixed_date);
  draw_on(surface.get(), path, draw);
  cairo_surface_finish(surface.get());
  throw_if_bad(cairo_surface_status(surface.get()), path);
  write_whole(path, bytes);
}

void draw_nowhere(Extent page, const std::function<void(cairo_t*)>& draw) {
  auto surface = hold(cairo_pdf_surface_create(nullptr, page.width, page.height));
  draw_on(surface.get(), "", draw);
}

void write_png(const std::string& path, Extent size, const std::function<void(cairo_t*)>& draw) {
  auto surface = hold(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(size.width)),
                                                 static_cast<int>(std::ceil(size.height))));
  draw_on(surface.get(), path, on_white(draw));
  std::string bytes;
  throw_if_bad(cairo_surface_write_to_png_stream(surface.get(), append, &bytes), path);
  write_whole(path, bytes);
}

void write_png_and_svg(const std::string& stem, Extent size, const std::function<void(cairo_t*)>& draw) {
  write_png(stem + ".png", size, draw);
  const std::string path = stem + ".svg";
  std::string bytes;
  auto surface = hold(cairo_svg_surface_create_for_stream(append, &bytes, size.width, size.height));
  cairo_svg_surface_set_document_unit(surface.get(), CAIRO_SVG_UNIT_PX);
  draw_on(surface.get(), path, on_white(draw));
  cairo_surface_finish(surface.get());
  throw_if_bad(cairo_surface_status(surface.get()), path);
  write_whole(path, with_surfaces_renumbered(bytes));
}

void draw_on_image(cairo_surface_t* image, const std::function<void(cairo_t*)>& draw) {
  draw_on(image, "the moving picture", on_white(draw));
}

void end_page(cairo_t* cr) { cairo_show_page(cr); }

void set_ink(cairo_t* cr, const Colour& c) { cairo_set_source_rgb(cr, c.red, c.green, c.blue); }

void fill_box(cairo_t* cr, const Box& box, const Colour& c) {
  set_ink(cr, c);
  cairo_rectangle(cr, box.x, box.y, box.width, box.height);
  cairo_fill(cr);
}

void stroke_box(cairo_t* cr, const Box& box, double line_width, const Colour& c) {
  set_ink(cr, c);
  cairo_set_line_width(cr, line_width);
  cairo_rectangle(cr, box.x, box.y, box.width, box.height);
  cairo_stroke(cr);
}

void stroke_line(cairo_t* cr, Point from, Point to, double line_width, const Colour& c) {
  set_ink(cr, c);
  cairo_set_line_width(cr, line_width);
  cairo_move_to(cr, from.x, from.y);
  cairo_line_to(cr, to.x, to.y);
  cairo_stroke(cr);
}

void draw_arrow(cairo_t* cr, Point from, Point to, double line_width, double head, const Colour& c) {
  const double dx = to.x - from.x, dy = to.y - from.y, length = std::hypot(dx, dy);
  if (!(length > 0)) return;
  const double ux = dx / length, uy = dy / length;
  const Point neck{to.x - head * ux, to.y - head * uy};
  if (length > head) stroke_line(cr, from, neck, line_width, c);
  set_ink(cr, c);
  cairo_move_to(cr, to.x, to.y);
  cairo_line_to(cr, neck.x - head * 0.4 * uy, neck.y + head * 0.4 * ux);
  cairo_line_to(cr, neck.x + head * 0.4 * uy, neck.y - head * 0.4 * ux);
  cairo_close_path(cr);
  cairo_fill(cr);
}

void draw_tick_box(cairo_t* cr, Point top_left, double size) {
  fill_box(cr, {top_left.x, top_left.y, size, size}, white);
  stroke_box(cr, {top_left.x, top_left.y, size, size}, 1.2);
}

}  // namespace evenpull::viz
