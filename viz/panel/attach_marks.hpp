// How the cloth is fastened to a rib, by shape: a heavy line for glue, crosses for lacing, discs for rivets, open squares for
// screws; when, by the text in a ring.
#pragma once

#include "solver/statement/case.hpp"
#include "viz/kit/canvas.hpp"

#include <string>

namespace evenpull::viz {

/// Along a rib from its front to its rear; `size` of a mark [points or pixels]. Nothing for a rib that is left.
void draw_fastening(cairo_t* cr, Point from, Point to, AttachHow how, double size);

/// A ring with the text in it that says when ("0", "1", "E"), on white.
void draw_moment(cairo_t* cr, Point at, const std::string& text, double type);

}  // namespace evenpull::viz
