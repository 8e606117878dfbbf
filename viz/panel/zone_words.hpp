// Words in the zones of a skin drawing: one large (place, pull) and one small (label), sized alike in all zones.
#pragma once

#include "viz/kit/text.hpp"
#include "viz/panel/skin_view.hpp"

#include <functional>
#include <string>

namespace evenpull::viz {

/// What stands in a zone: a large word (may be empty) and the small zone label (may be empty).
struct ZoneWords {
  std::string large, small;
  Colour ink = black;
  bool plate = false;  ///< white behind the words, where there is something under them
};

/// Large words take the largest size up to `most` that suits every zone, so that they compare; small ones take `least`.
/// Where not even `least` leaves room for both, the small words are left out; a zone far too small for its word has none.
/// Gives how many have none.
int draw_zone_words(cairo_t* cr, const Panel& panel, const SkinView& view, double least, double most,
                    const std::function<ZoneWords(const Zone&)>& words);

}  // namespace evenpull::viz
