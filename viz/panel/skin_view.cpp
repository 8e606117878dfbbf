#include "viz/panel/skin_view.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenpull::viz {

SkinView::SkinView(const Panel& panel, Box box, double gap, bool at_top) : gap_(gap) {
  constexpr double far = std::numeric_limits<double>::max();
  x_low_ = y_low_ = far;
  x_high_ = y_high_ = -far;
  for (const auto& n : panel.nodes) {
    x_low_ = std::min(x_low_, n.placed.x());
    x_high_ = std::max(x_high_, n.placed.x());
    y_low_ = std::min(y_low_, n.placed.y());
    y_high_ = std::max(y_high_, n.placed.y());
  }
  const double chord = x_high_ - x_low_, span = y_high_ - y_low_;
  way_ = span >= 2 * chord ? Way::stacked : Way::side_by_side;
  scale_ = way_ == Way::stacked ? std::min(box.width / span, (box.height - gap) / (2 * chord))
                                : std::min(box.height / span, (box.width - gap) / (2 * chord));
  const double across = way_ == Way::stacked ? span * scale_ : 2 * chord * scale_ + gap;
  const double down = way_ == Way::stacked ? 2 * chord * scale_ + gap : span * scale_;
  origin_ = {box.x + (box.width - across) / 2, box.y + (at_top ? 0 : (box.height - down) / 2)};
}

Point SkinView::at(Side side, double x, double y) const {
  const double chord = (x_high_ - x_low_) * scale_;
  // Distance from the upper (or left) edge of both skins together, measured along the unrolled chord.
  const double along = side == Side::top ? (x - x_low_) * scale_ : 2 * chord + gap_ - (x - x_low_) * scale_;
  if (way_ == Way::stacked) return {origin_.x + (y - y_low_) * scale_, origin_.y + along};
  return {origin_.x + along, origin_.y + (y_high_ - y) * scale_};
}

Point SkinView::centre(const Panel& panel, const Zone& zone) const {
  Point sum;
  double area = 0;
  for (int q : zone.quads) {
    const Quad& quad = panel.quads[q];
    for (int n : quad.nodes) {
      const Point p = at(panel.nodes[n]);
      sum.x += p.x * quad.area / 4;
      sum.y += p.y * quad.area / 4;
    }
    area += quad.area;
  }
  return area > 0 ? Point{sum.x / area, sum.y / area} : sum;
}

Box SkinView::area(Side side) const {
  const Point a = at(side, x_low_, y_low_), b = at(side, x_high_, y_high_);
  return {std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x), std::abs(a.y - b.y)};
}

Box SkinView::whole() const {
  const Box a = area(Side::top), b = area(Side::bottom);
  const double x = std::min(a.x, b.x), y = std::min(a.y, b.y);
  return {x, y, std::max(a.right(), b.right()) - x, std::max(a.bottom(), b.bottom()) - y};
}

namespace {

std::vector<int> outline_of_block(const Panel& panel, Side side, int row0, int row1, int column0, int column1) {
  std::vector<int> nodes;
  for (int c = column0; c < column1; ++c) nodes.push_back(panel.node(side, row0, c));
  for (int r = row0; r < row1; ++r) nodes.push_back(panel.node(side, r, column1));
  for (int c = column1; c > column0; --c) nodes.push_back(panel.node(side, row1, c));
  for (int r = row1; r > row0; --r) nodes.push_back(panel.node(side, r, column0));
  return nodes;
}

}  // namespace

std::vector<int> zone_outline(const Panel& panel, const Zone& zone) {
  int row0 = panel.rows, row1 = 0, column0 = panel.columns, column1 = 0;
  for (int q : zone.quads) {
    row0 = std::min(row0, panel.quads[q].row);
    row1 = std::max(row1, panel.quads[q].row + 1);
    column0 = std::min(column0, panel.quads[q].column);
    column1 = std::max(column1, panel.quads[q].column + 1);
  }
  return zone.quads.empty() ? std::vector<int>{} : outline_of_block(panel, zone.side, row0, row1, column0, column1);
}

std::vector<int> skin_outline(const Panel& panel, Side side) {
  return outline_of_block(panel, side, 0, panel.rows - 1, 0, panel.columns - 1);
}

Extent room_in_zone(const Panel& panel, const Zone& zone, const SkinView& view) {
  const Point c = view.centre(panel, zone);
  // Nearest outline point in a wedge about each axis: generous for the near-rectangles that zones are.
  double across = std::numeric_limits<double>::max(), down = across;
  const auto nodes = zone_outline(panel, zone);
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const Point p = view.at(panel.nodes[nodes[i]]), q = view.at(panel.nodes[nodes[(i + 1) % nodes.size()]]);
    const auto crosses = [](double a, double b, double level) { return (a - level) * (b - level) <= 0 && a != b; };
    if (crosses(p.y, q.y, c.y)) {
      const double x = p.x + (q.x - p.x) * (c.y - p.y) / (q.y - p.y);
      across = std::min(across, std::abs(x - c.x));
    }
    if (crosses(p.x, q.x, c.x)) {
      const double y = p.y + (q.y - p.y) * (c.x - p.x) / (q.x - p.x);
      down = std::min(down, std::abs(y - c.y));
    }
  }
  return {2 * across, 2 * down};
}

}  // namespace evenpull::viz
