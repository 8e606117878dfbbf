// Where a point of the panel lies on paper: both skins in plan, to one scale, unrolled about the trailing edge. The
// bottom is drawn as it is seen after the panel has been rolled over about its span: the root stays where it was, the
// leading edge changes sides. Heights are left out; the profile's slope hides a percent or two of the cloth's length.
#pragma once

#include "solver/geometry/panel.hpp"
#include "viz/kit/canvas.hpp"

#include <vector>

namespace evenpull::viz {

class SkinView {
 public:
  enum class Way {
    stacked,      ///< span across the paper, top skin above bottom skin
    side_by_side  ///< span up the paper, top skin left of bottom skin
  };

  /// Fits both skins and the gap along the trailing edge into the box, centred in it or at its top. The way depends on
  /// the panel alone, so that every drawing of a plan lies the same way.
  SkinView(const Panel& panel, Box box, double gap, bool at_top = false);

  Way way() const { return way_; }
  double scale() const { return scale_; }         ///< paper units per metre
  Point at(Side side, double x, double y) const;  ///< x chordwise, y spanwise [m]
  Point at(const ClothNode& node) const { return at(node.side, node.placed.x(), node.placed.y()); }
  /// Where the words of a zone stand: the middle of its area, or where there is most room if something is cut out of it.
  Point centre(const Panel& panel, const Zone& zone) const;
  Box area(Side side) const;  ///< what one skin takes of the paper
  Box whole() const;

 private:
  Point centroid(const Panel& panel, const Zone& zone) const;
  Way way_ = Way::stacked;
  double scale_ = 1, gap_ = 0;
  double x_low_ = 0, x_high_ = 1, y_low_ = 0, y_high_ = 1;
  Point origin_;
};

/// Nodes round each piece of cloth of a zone, in order from the first one along its row. Without cut-outs it is one piece.
std::vector<std::vector<int>> zone_outlines(const Panel& panel, const Zone& zone);
/// The same of one skin.
std::vector<std::vector<int>> skin_outlines(const Panel& panel, Side side);
/// Paper box of a zone: the largest upright text area about its centre that its outline surely holds.
Extent room_in_zone(const Panel& panel, const Zone& zone, const SkinView& view);

}  // namespace evenpull::viz
