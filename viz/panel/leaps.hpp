// Arrows from zone to zone, drawn only where the next zone is not the one beside.
#pragma once

#include "viz/panel/skin_view.hpp"

namespace evenpull::viz {

/// On one side, and sharing a border.
bool neighbours(const Zone& a, const Zone& b);

struct LeapStyle {
  double clear = 30;  ///< kept free round the number in the middle of a zone
  double line_width = 2.5, head = 16;
};

/// From near one number to near the next; nothing where there is no room between them.
void draw_leap(cairo_t* cr, Point from, Point to, const LeapStyle& style = {});

}  // namespace evenpull::viz
