#include "viz/kit/dimension.hpp"

#include <cmath>
#include <numbers>

namespace evenpull::viz {

void draw_dimension(cairo_t* cr, Point from, Point to, const std::string& words, double type) {
  const Point middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
  draw_arrow(cr, middle, from, 1.5, 0.6 * type);
  draw_arrow(cr, middle, to, 1.5, 0.6 * type);
  const Extent size = measure_text(cr, words, {.size = type});
  const bool plumb = std::abs(to.y - from.y) > std::abs(to.x - from.x);
  const double w = plumb ? size.height : size.width + 10, h = plumb ? size.width + 10 : size.height;
  fill_box(cr, {middle.x - w / 2, middle.y - h / 2, w, h}, white);
  draw_centred(cr, middle, words, {.size = type}, plumb ? -std::numbers::pi / 2 : 0);
}

}  // namespace evenpull::viz
