#include "viz/pictures/skin_picture.hpp"

#include "viz/panel/skin_drawing.hpp"
#include "viz/sheet/sheet_frame.hpp"

#include <algorithm>

namespace evenpull::viz {

namespace {
constexpr double least_map = 380, most_map = 1000;
}

double map_height(const Panel& panel) {
  const double width = SkinPicture::width - 2 * SkinPicture::margin;
  const SkinView trial = fit_skins(panel, {0, 0, width, 1e5}, SkinPicture::type);
  return std::clamp(trial.whole().height + 2 * skin_margins(SkinPicture::type).label, least_map, most_map);
}

void draw_picture_head(cairo_t* cr, const Plan& plan, int stage, const std::string& title, const std::string& numbers) {
  constexpr double margin = SkinPicture::margin, type = SkinPicture::type;
  draw_text(cr, {margin, 18}, title, {.size = SkinPicture::title_type, .bold = true});
  draw_text(cr, {margin, 66}, title_and_marks(cr, plan, numbers + "  ", type, SkinPicture::width - 2 * margin),
            {.size = type});
  if (stage > plan.ceiling.value_or(-1))
    draw_text(cr, {SkinPicture::width - margin, 26}, "HOTTER THAN IS SAFE: do not iron",
              {.size = type, .bold = true, .align = Align::right});
}

}  // namespace evenpull::viz
