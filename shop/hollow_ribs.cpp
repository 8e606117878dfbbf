#include "shop/hollow_ribs.hpp"

#include "solver/geometry/surface.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

constexpr int steps_over_hollow = 200;  // far finer than a profile is measured

struct SkinPoint {
  double fraction = 0, x = 0, height = 0;  // of the chord; m, m outwards
};

// One side of a rib.
class Edge {
 public:
  Edge(const Case& c, int rib, Side side)
      : surface_(c), side_(side), chord_(surface_.chord({std::max(0, rib - 1), rib > 0 ? 1.0 : 0.0})) {}
  SkinPoint at(double fraction) const {
    const ProfilePoint p = surface_.profile(fraction);
    return {fraction, fraction * chord_, (side_ == Side::top ? p.top : p.bottom) * chord_};
  }

 private:
  Surface surface_;
  Side side_;
  double chord_;
};

// The points of the profile that are stated, from the seam back: what the smooth line between them does nobody measured.
std::vector<SkinPoint> stated_points(const Case& c, const Edge& edge) {
  const double seam = c.blanket.seam_chord_fraction;
  std::vector<SkinPoint> out = {edge.at(seam)};
  for (const ProfilePoint& p : c.profile)
    if (p.chord_fraction > seam) out.push_back(edge.at(p.chord_fraction));
  return out;
}

bool turns_in(const SkinPoint& a, const SkinPoint& b, const SkinPoint& c) {
  return (b.x - a.x) * (c.height - a.height) >= (c.x - a.x) * (b.height - a.height);
}

// Points on which cloth drawn tight lies: the upper convex hull (Andrew's scan), as indices.
std::vector<std::size_t> bearing_points(const std::vector<SkinPoint>& skin) {
  std::vector<std::size_t> hull;
  for (std::size_t i = 0; i < skin.size(); ++i) {
    while (hull.size() > 1 && turns_in(skin[hull[hull.size() - 2]], skin[hull.back()], skin[i])) hull.pop_back();
    hull.push_back(i);
  }
  return hull;
}

// Between two bearing points.
Hollow between(const Edge& edge, const SkinPoint& a, const SkinPoint& b) {
  Hollow h;
  h.from = a.fraction, h.to = b.fraction;
  h.length = std::hypot(b.x - a.x, b.height - a.height);
  const double slope = (b.height - a.height) / (b.x - a.x), square = std::sqrt(1 + slope * slope);
  for (int i = 0; i <= steps_over_hollow; ++i) {
    const SkinPoint p = edge.at(h.from + (h.to - h.from) * i / steps_over_hollow);
    h.lift = std::max(h.lift, (a.height + slope * (p.x - a.x) - p.height) / square);
  }
  return h;
}

double width_beside(const Case& c, int rib) {
  const auto r = static_cast<std::size_t>(rib);
  double width = 0;
  if (r > 0) width += 0.5 * (c.ribs[r].station - c.ribs[r - 1].station);
  if (r + 1 < c.ribs.size()) width += 0.5 * (c.ribs[r + 1].station - c.ribs[r].station);
  return width;
}

Hollow deepest(const Case& c, int rib, Side side) {
  const Edge edge(c, rib, side);
  const std::vector<SkinPoint> skin = stated_points(c, edge);
  const std::vector<std::size_t> bears = bearing_points(skin);
  Hollow best;
  for (std::size_t k = 1; k < bears.size(); ++k) {
    if (bears[k] == bears[k - 1] + 1) continue;  // no point between them
    if (const Hollow h = between(edge, skin[bears[k - 1]], skin[bears[k]]); h.lift > best.lift) best = h;
  }
  best.rib = rib, best.side = side, best.width = width_beside(c, rib);
  return best;
}

}  // namespace

std::vector<Hollow> hollows_of(const Case& c) {
  std::vector<Hollow> out;
  for (int rib = 1; rib + 1 < static_cast<int>(c.ribs.size()); ++rib) {
    if (!c.ribs[static_cast<std::size_t>(rib)].touches_cloth) continue;
    for (const Side side : {Side::top, Side::bottom})
      if (const Hollow h = deepest(c, rib, side); h.lift >= least_hollow) out.push_back(h);
  }
  return out;
}

double line_load(const Hollow& h, double pull) { return pull * h.curvature() * h.width; }

double pull_added(const Hollow& h, double stiffness) {
  const double depth = h.lift / h.length;
  return stiffness * 8.0 / 3.0 * depth * depth;
}

}  // namespace evenpull
