#include "viz/panel/skin_view.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>
#include <utility>

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

Point SkinView::centroid(const Panel& panel, const Zone& zone) const {
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

// Edges that one quad alone has, joined end to end.
std::vector<std::vector<int>> outlines_of(const std::set<std::pair<int, int>>& edges) {
  std::map<int, int> next(edges.begin(), edges.end());
  std::vector<std::vector<int>> loops;
  while (!next.empty()) {
    loops.emplace_back();
    for (auto at = next.begin(); at != next.end();) {
      loops.back().push_back(at->first);
      const int to = at->second;
      next.erase(at);
      at = next.find(to);
    }
  }
  return loops;
}

void add_edges(const Quad& q, std::set<std::pair<int, int>>& edges) {
  for (int i = 3; i >= 0; --i) {
    const int from = q.nodes[(i + 1) % 4], to = q.nodes[i];
    if (edges.erase({to, from}) == 0) edges.insert({from, to});
  }
}

}  // namespace

std::vector<std::vector<int>> zone_outlines(const Panel& panel, const Zone& zone) {
  std::set<std::pair<int, int>> edges;
  for (int q : zone.quads) add_edges(panel.quads[q], edges);
  return outlines_of(edges);
}

std::vector<std::vector<int>> skin_outlines(const Panel& panel, Side side) {
  std::set<std::pair<int, int>> edges;
  for (const Quad& q : panel.quads)
    if (q.side == side) add_edges(q, edges);
  return outlines_of(edges);
}

namespace {

// Nearest outline point in a wedge about each axis: generous for the near-rectangles that zones are.
Extent room_about(const Panel& panel, const std::vector<std::vector<int>>& outlines, const SkinView& view, Point c) {
  double across = std::numeric_limits<double>::max(), down = across;
  for (const std::vector<int>& nodes : outlines)
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

// A zone that is one block of the mesh, with nothing cut out of it.
bool is_whole(const Panel& panel, const Zone& zone) {
  int row0 = panel.rows, row1 = 0, column0 = panel.columns, column1 = 0;
  for (int q : zone.quads) {
    row0 = std::min(row0, panel.quads[q].row);
    row1 = std::max(row1, panel.quads[q].row + 1);
    column0 = std::min(column0, panel.quads[q].column);
    column1 = std::max(column1, panel.quads[q].column + 1);
  }
  return zone.quads.empty() || static_cast<int>(zone.quads.size()) == (row1 - row0) * (column1 - column0);
}

}  // namespace

Point SkinView::centre(const Panel& panel, const Zone& zone) const {
  if (is_whole(panel, zone)) return centroid(panel, zone);
  // Words are some three times as wide as high: where they find most room, of the middles of quads and of their sides.
  constexpr double wide = 3;
  const auto outlines = zone_outlines(panel, zone);
  Point best;
  double most = -1;
  for (int q : zone.quads) {
    const auto& n = panel.quads[q].nodes;
    const Point a = at(panel.nodes[n[0]]), b = at(panel.nodes[n[1]]), c = at(panel.nodes[n[2]]),
                d = at(panel.nodes[n[3]]);
    for (const Point& p : {Point{(a.x + c.x) / 2, (a.y + c.y) / 2}, Point{(b.x + c.x) / 2, (b.y + c.y) / 2},
                           Point{(c.x + d.x) / 2, (c.y + d.y) / 2}}) {
      const Extent room = room_about(panel, outlines, *this, p);
      if (const double size = std::min(room.width / wide, room.height); size > most) most = size, best = p;
    }
  }
  return best;
}

Extent room_in_zone(const Panel& panel, const Zone& zone, const SkinView& view) {
  return room_about(panel, zone_outlines(panel, zone), view, view.centre(panel, zone));
}

}  // namespace evenpull::viz
