// Text through Pango: placed by its upper edge, wrapped to a width, measured before it is drawn. Real, selectable text.
#pragma once

#include "viz/kit/canvas.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Smallest type on paper [points]. Capital letters of DejaVu Sans are 0.729 of the type size high; 3 mm of capital
/// height can be read at arm's length on a bench (our own judgement).
constexpr double least_type = 3.0 / 25.4 * 72 / 0.729;

enum class Align { left, centre, right };

struct TextStyle {
  double size = least_type;  ///< points (or pixels in a picture)
  bool bold = false;
  Align align = Align::left;  ///< within `width`; with width 0, which part of the line sits at x
  double width = 0;           ///< wrap to this; 0: one line
  Colour colour = black;
};

/// Draws with the upper edge of the first line at y. Gives the size taken.
Extent draw_text(cairo_t* cr, Point at, const std::string& text, const TextStyle& style = {});
Extent measure_text(cairo_t* cr, const std::string& text, const TextStyle& style = {});
/// Draws one line centred on a point, turned by `angle` [rad, clockwise].
void draw_centred(cairo_t* cr, Point centre, const std::string& text, const TextStyle& style, double angle = 0);
/// Letters that can be set: what is no UTF-8 becomes the sign for it, what is no letter (a line end apart) a space.
std::string readable(const std::string& text);
/// In one line, cut short with three dots if it is wider than `room`.
std::string cut_to_width(cairo_t* cr, const std::string& text, const TextStyle& style, double room);
/// Cut between lines into pieces none of which is higher than that, or than one line.
std::vector<std::string> split_by_height(cairo_t* cr, const std::string& text, const TextStyle& style, double height);
/// Largest size in [least, most] at which the line fits the box.
double fitting_size(cairo_t* cr, const std::string& text, const TextStyle& style, Extent box, double least,
                    double most);

}  // namespace evenpull::viz
