// Opening and closing a drawing. One draw(cairo_t*) serves PDF and PNG. Files are written aside and renamed when whole.
#pragma once

#include "viz/kit/colours.hpp"

#include <functional>
#include <string>

typedef struct _cairo cairo_t;
typedef struct _cairo_surface cairo_surface_t;

namespace evenpull::viz {

struct Point {
  double x = 0, y = 0;
};

struct Box {
  double x = 0, y = 0, width = 0, height = 0;
  double right() const { return x + width; }
  double bottom() const { return y + height; }
  Box inset(double by) const { return {x + by, y + by, width - 2 * by, height - 2 * by}; }
};

/// Size of a drawing in its own units: points for PDF, pixels for PNG.
struct Extent {
  double width = 0, height = 0;
};

/// Throws CannotWriteFile that names the file when it cannot be written.
void write_pdf(const std::string& path, Extent page, const std::string& title,
               const std::function<void(cairo_t*)>& draw);
/// Draws pages into nothing, to learn how many there are.
void draw_nowhere(Extent page, const std::function<void(cairo_t*)>& draw);
/// Throws CannotWriteFile that names the file when it cannot be written.
void write_png(const std::string& path, Extent size, const std::function<void(cairo_t*)>& draw);
/// One drawing, as PNG at `stem`.png and, for whoever wants it larger, as SVG at `stem`.svg. Throws likewise.
void write_png_and_svg(const std::string& stem, Extent size, const std::function<void(cairo_t*)>& draw);
/// Draws on white on an image that somebody keeps.
void draw_on_image(cairo_surface_t* image, const std::function<void(cairo_t*)>& draw);
void end_page(cairo_t* cr);

void set_ink(cairo_t* cr, const Colour& c);
void fill_box(cairo_t* cr, const Box& box, const Colour& c);
void stroke_box(cairo_t* cr, const Box& box, double line_width, const Colour& c = black);
void stroke_line(cairo_t* cr, Point from, Point to, double line_width, const Colour& c = black);
/// A line with a filled head at `to`; shorter than its head it becomes the head alone.
void draw_arrow(cairo_t* cr, Point from, Point to, double line_width, double head, const Colour& c = black);
/// An empty square to be ticked with a pencil.
void draw_tick_box(cairo_t* cr, Point top_left, double size);

}  // namespace evenpull::viz
