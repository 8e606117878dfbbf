// Banded fields on the skins: filled bands, lines between them, hatching by state, ticks for direction.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "viz/panel/skin_view.hpp"

#include <vector>

namespace evenpull::viz {

/// Values per quad become values per corner by area within each bay (a rib may divide the pull, so it is not smoothed
/// across); bands are cut from the four triangles about each quad's middle.
void draw_bands(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<float>& per_quad,
                const Bands& bands, double line_width);

/// The same for values per cloth node.
void draw_node_bands(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<float>& per_node,
                     const Bands& bands, double line_width);

/// Puckered cloth with strokes one way; loose cloth pale, whatever was under it, with crossed strokes.
void draw_state_hatching(cairo_t* cr, const Panel& panel, const SkinView& view, const Snapshot& now, double spacing);

/// Short strokes along the larger principal pull, as long as it is strong; none on loose cloth. `spacing` apart at
/// least.
void draw_direction_ticks(cairo_t* cr, const Panel& panel, const SkinView& view, const Snapshot& now, double strongest,
                          double spacing);

/// One box of the hatching or ticks for a legend.
enum class Sample { tight, puckered, loose };
void draw_state_sample(cairo_t* cr, const Box& box, Sample which, double spacing);

}  // namespace evenpull::viz
