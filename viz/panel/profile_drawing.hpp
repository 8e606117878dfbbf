// The thickness profile at the root, to scale, with the span members and where cloth is glued and bears.
#pragma once

#include "solver/statement/case.hpp"
#include "viz/kit/text.hpp"

namespace evenpull::viz {

/// Height that the drawing takes at this width.
double profile_height(const Case& c, double width);
void draw_profile(cairo_t* cr, const Case& c, Point top_left, double width);

}  // namespace evenpull::viz
