// What is drawn over or beside a pull map: slip arrows along the trailing edge and the scale bar.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "viz/kit/text.hpp"
#include "viz/panel/skin_view.hpp"

namespace evenpull::viz {

/// Arrows across the gap, towards the side that the cloth went to. `longest` [m] fills half the room of an arrow.
void draw_slip_arrows(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<float>& slip,
                      double longest, double type_size);

/// Bands side by side with their limits: lb/in above, N/m below. Takes about 4.6 type sizes of height.
/// `open_end`: the last band takes all above it too.
void draw_pull_bar(cairo_t* cr, Box box, const Bands& bands, bool open_end, double type_size);

/// The same for lengths in m: inches above, millimetres below.
void draw_length_bar(cairo_t* cr, Box box, const Bands& bands, double type_size);

/// Bands of use (share of a limit), the last one open, limits printed below. Takes about 3 type sizes of height.
void draw_use_bar(cairo_t* cr, Box box, const Bands& bands, double type_size);

/// Bands of a chance in percent. Takes about 3 type sizes of height.
void draw_chance_bar(cairo_t* cr, Box box, const Bands& bands, double type_size);

}  // namespace evenpull::viz
