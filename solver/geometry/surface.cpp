#include "solver/geometry/surface.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

// x of a polyline given y (linear between points).
double along(const std::vector<PlanPoint>& line, double y) {
  std::size_t i = 0;
  while (i + 2 < line.size() && line[i + 1].y <= y) ++i;
  const PlanPoint &a = line[i], &b = line[i + 1];
  return a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
}

// Steps for the arc length of the profile: fine enough that its error is far below an element.
constexpr int arc_steps = 400;

// Limiter of Fritsch and Carlson (SIAM J. Numer. Anal. 17, 1980; from memory): harmonic mean of the neighbouring slopes.
double limited_slope(double left, double right) { return left * right <= 0 ? 0 : 2 * left * right / (left + right); }

using Height = double ProfilePoint::*;

double slope_between(const std::vector<ProfilePoint>& p, std::size_t i, Height h) {
  return (p[i + 1].*h - p[i].*h) / (p[i + 1].chord_fraction - p[i].chord_fraction);
}

double node_slope(const std::vector<ProfilePoint>& p, std::size_t i, Height h) {
  if (i == 0) return slope_between(p, 0, h);
  if (i + 1 == p.size()) return slope_between(p, i - 1, h);
  return limited_slope(slope_between(p, i - 1, h), slope_between(p, i, h));
}

// Monotone cubic through the profile points: no overshoot, and straight where the points are.
double interpolate(const std::vector<ProfilePoint>& p, double x, Height h) {
  std::size_t i = 0;
  while (i + 2 < p.size() && p[i + 1].chord_fraction <= x) ++i;
  const double w = p[i + 1].chord_fraction - p[i].chord_fraction, t = (x - p[i].chord_fraction) / w;
  const double m0 = node_slope(p, i, h) * w, m1 = node_slope(p, i + 1, h) * w;
  const double t2 = t * t, t3 = t2 * t;
  return (2 * t3 - 3 * t2 + 1) * (p[i].*h) + (t3 - 2 * t2 + t) * m0 + (3 * t2 - 2 * t3) * (p[i + 1].*h) +
         (t3 - t2) * m1;
}

}  // namespace

ProfilePoint Surface::profile(double xi) const {
  return {xi, interpolate(case_.profile, xi, &ProfilePoint::top),
          interpolate(case_.profile, xi, &ProfilePoint::bottom)};
}

double Surface::station(SpanPlace p) const {
  const double a = case_.ribs[p.bay].station, b = case_.ribs[p.bay + 1].station;
  return a + p.share * (b - a);
}

double Surface::chord(SpanPlace p) const {
  const double y = station(p);
  return along(case_.outline.trailing_edge, y) - along(case_.outline.leading_edge, y);
}

// The tip bow is half an ellipse beyond the last station; lines of constant share blend from the last rib to it.
Eigen::Vector2d Surface::plan(double xi, SpanPlace p) const {
  const double y = station(p);
  const double le = along(case_.outline.leading_edge, y);
  double bulge = 0;
  if (case_.tip_bow && p.bay + 2 == static_cast<int>(case_.ribs.size())) {
    const double from_middle = 2 * xi - 1;
    bulge = p.share * case_.outline.tip_bow_depth * std::sqrt(std::max(0.0, 1 - from_middle * from_middle));
  }
  return {le + xi * chord(p), y + bulge};
}

double Surface::height(Side side, double xi, SpanPlace p) const {
  const ProfilePoint h = profile(xi);
  const double full = (side == Side::top ? h.top : h.bottom) * chord(p);
  if (!case_.tip_bow || p.bay + 2 != static_cast<int>(case_.ribs.size())) return full;
  // Falls to the bow's own thickness with a level start at the last rib.
  const double fall = p.share * p.share;
  return full * (1 - fall) + 0.5 * case_.tip_thickness * fall;
}

Eigen::Vector3d Surface::skin(Side side, double xi, SpanPlace p) const {
  const Eigen::Vector2d at = plan(xi, p);
  const double z = height(side, xi, p);
  return {at.x(), at.y(), side == Side::top ? z : -z};
}

Eigen::Vector3d Surface::middle(double xi, SpanPlace p) const {
  return 0.5 * (skin(Side::top, xi, p) + skin(Side::bottom, xi, p));
}

double Surface::depth(double xi, SpanPlace p) const { return height(Side::top, xi, p) + height(Side::bottom, xi, p); }

double Surface::arc(double xi) const {
  double sum = 0;
  ProfilePoint last = profile(0);
  for (int i = 1; i <= arc_steps; ++i) {
    const ProfilePoint now = profile(xi * i / arc_steps);
    const double dx = now.chord_fraction - last.chord_fraction;
    sum += 0.5 * (std::hypot(dx, now.top - last.top) + std::hypot(dx, now.bottom - last.bottom));
    last = now;
  }
  return sum;
}

double Surface::chord_fraction_at_arc(double arc_share) const {
  double low = 0, high = 1;
  for (int i = 0; i < 60; ++i) {
    const double mid = 0.5 * (low + high);
    (arc(mid) < arc_share ? low : high) = mid;
  }
  return 0.5 * (low + high);
}

double Surface::trailing_edge_sweep() const {
  const auto& te = case_.outline.trailing_edge;
  return (te.back().x - te.front().x) / (te.back().y - te.front().y);
}

}  // namespace evenpull::inline solver
