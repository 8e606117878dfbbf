// The drawing of both skins that the sheet, the pictures and the survey share: outlines, zones, datum.
#pragma once

#include "viz/kit/text.hpp"
#include "viz/panel/skin_view.hpp"

#include <vector>

namespace evenpull::viz {

/// Paper kept free round the skins for the words along their edges.
struct SkinMargins {
  double label = 0;  ///< height of one line of edge words
  double gap = 0;    ///< between the skins along the trailing edge
};
SkinMargins skin_margins(double type_size);

/// A view that leaves room for the edge words inside `box`.
SkinView fit_skins(const Panel& panel, Box box, double type_size, bool at_top = false);

/// Path of a closed line through nodes (added to the current path).
void trace_nodes(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<int>& nodes);
/// Several closed lines as one path.
void trace_outlines(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<std::vector<int>>& lines);

void draw_zone_lines(cairo_t* cr, const Panel& panel, const SkinView& view, double line_width,
                     const Colour& ink = black);
/// Middle of the words "trailing edge" between the skins: of the longest stretch of it that pockets leave.
Point edge_words_place(const Panel& panel, const SkinView& view);
/// Both outlines, the leading edge as a heavy bar (the datum), and the words along the edges.
void draw_skin_frame(cairo_t* cr, const Panel& panel, const SkinView& view, double type_size);

}  // namespace evenpull::viz
