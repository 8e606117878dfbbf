#include "viz/panel/leaps.hpp"

#include <cmath>
#include <cstdlib>

namespace evenpull::viz {

bool neighbours(const Zone& a, const Zone& b) {
  return a.side == b.side && std::abs(a.bay - b.bay) + std::abs(a.strip - b.strip) == 1;
}

void draw_leap(cairo_t* cr, Point from, Point to, const LeapStyle& style) {
  const double dx = to.x - from.x, dy = to.y - from.y, length = std::hypot(dx, dy);
  constexpr double least_length = 2.5;  // of what is kept clear
  if (length < least_length * style.clear) return;
  const double a = style.clear / length;
  draw_arrow(cr, {from.x + a * dx, from.y + a * dy}, {to.x - a * dx, to.y - a * dy}, style.line_width, style.head,
             grey);
}

}  // namespace evenpull::viz
