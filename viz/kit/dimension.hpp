// Dimension lines as on a drawing: a line with two arrow heads, thin lines out to it, the length in both units.
#pragma once

#include "viz/kit/text.hpp"

#include <string>

namespace evenpull::viz {

/// Between two points on one level or one plumb line; the words stand on the middle of it, on white.
void draw_dimension(cairo_t* cr, Point from, Point to, const std::string& words, double type);

}  // namespace evenpull::viz
