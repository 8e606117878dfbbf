// The lines along which cloth is glued before it is ironed, their areas and what adhesive they take; lines along which a tape
// lies. From the panel as it is built: cut-outs, glued ribs and ends that go on are what the solver has.
#pragma once

#include "shop/adhesive.hpp"
#include "shop/finish.hpp"
#include "solver/geometry/panel.hpp"

#include <Eigen/Core>

#include <vector>

namespace evenpull {

enum class LineAt { leading_edge, trailing_edge, end_rib, inner_rib, pocket_front, pocket_side, hinge_gap };

struct ClothLine {
  LineAt at = LineAt::leading_edge;
  Side side = Side::top;
  int index = -1;                ///< of Case::ribs, Case::pockets or Case::hinge_gaps; -1: an edge
  double length = 0;             ///< along the cloth as it is laid on [m]
  Eigen::Vector2d centre{0, 0};  ///< of the line, in plan [m]
};

struct GlueLine : ClothLine {
  double width = 0;   ///< glued: on the member's face and what is turned round [m]
  double turned = 0;  ///< of it, what lies beyond the cloth that is ironed: laps, tucks [m]
  double area() const { return length * width; }
};

/// By side, in the order of LineAt and of places. An edge tacked at the TE of a full wrap counts once, at the top. Where the seam
/// is on the LE both ends of the wrap share one lap. A cap is as wide as its member (a tube as its diameter): judgement.
std::vector<GlueLine> glue_lines(const Case& c, const Panel& p, const Adhesive& a);

/// Edges and ribs that the cloth touches, whether glued or not. The TE counts once, at the top; so does the LE where the seam lies on it.
std::vector<ClothLine> edge_and_rib_lines(const Case& c, const Panel& p);

/// Of the tape over such a line [m]; 0: none.
double tape_width(const Tapes& t, LineAt at);

struct Volume {
  double likely = 0, low = 0, high = 0;  ///< m^3; 95 of 100 such jobs take between low and high
};

struct GlueNeed {
  double area = 0;  ///< m^2, all lines
  Volume pre_coat, lay_in, brush_through;
  Volume in_all;  ///< with what is lost in brush and pot: to have at hand
};
GlueNeed glue_need(const std::vector<GlueLine>& lines, const Adhesive& a);

}  // namespace evenpull
