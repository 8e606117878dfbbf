// Every section of the frame, each to scale with a scale of its own beside it, and its sizes as they were written.
#pragma once

#include "viz/kit/text.hpp"
#include "viz/words/section_words.hpp"

#include <vector>

namespace evenpull::viz {

/// Height that the drawing takes at this width; `cr` only measures.
double sections_height(cairo_t* cr, const Case& c, const std::vector<ShownSection>& sections, double width);
void draw_sections(cairo_t* cr, const Case& c, const std::vector<ShownSection>& sections, Point top_left, double width);

}  // namespace evenpull::viz
