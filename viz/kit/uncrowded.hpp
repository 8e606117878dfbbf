// Words of a drawing that may be too many for it.
#pragma once

#include "viz/kit/text.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Words that would lie on others are left out: on top of one another nobody reads either.
class Uncrowded {
 public:
  /// True if there is room, which is then taken.
  bool take(const Box& box) {
    for (const Box& b : taken_)
      if (box.x < b.right() && b.x < box.right() && box.y < b.bottom() && b.y < box.bottom()) return false;
    taken_.push_back(box);
    return true;
  }
  void add(cairo_t* cr, Point centre, const std::string& words, const TextStyle& style) {
    const Extent size = measure_text(cr, words, style);
    if (take({centre.x - size.width / 2, centre.y - size.height / 2, size.width, size.height}))
      draw_centred(cr, centre, words, style);
  }

 private:
  std::vector<Box> taken_;
};

}  // namespace evenpull::viz
