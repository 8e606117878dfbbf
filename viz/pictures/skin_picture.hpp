// What the pictures of both skins share: their size, the room for the map, the head.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "viz/kit/text.hpp"

#include <string>

namespace evenpull::viz {

/// All in pixels. The type can be read when the picture is shown at half its size.
struct SkinPicture {
  static constexpr double width = 1600, margin = 40;
  static constexpr double type = 22, title_type = 34;
  static constexpr double head_height = 112;
};

/// Height that both skins take across the picture.
double map_height(const Panel& panel);

/// Title, what the numbers are, marks of the plan; warns above the hottest safe stage.
void draw_picture_head(cairo_t* cr, const Plan& plan, int stage, const std::string& title, const std::string& numbers);

}  // namespace evenpull::viz
