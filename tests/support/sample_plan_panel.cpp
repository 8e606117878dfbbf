#include "tests/support/sample_plan.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>

namespace evenpull {

namespace {

double between(double a, double b, double t) { return a + (b - a) * t; }

// Chord fraction xi, span fraction eta; the last bay is drawn out to the bow.
Eigen::Vector3d place(const Case& c, double xi, double eta, int side_sign) {
  const auto &le = c.outline.leading_edge, &te = c.outline.trailing_edge;
  const double x = between(between(le[0].x, le[1].x, eta), between(te[0].x, te[1].x, eta), xi);
  const double last = c.ribs[c.ribs.size() - 2].station / c.outline.span();
  const double out = std::max(0.0, (eta - last) / (1 - last));
  const double y = eta * c.outline.span() + out * c.outline.tip_bow_depth * (1 - std::pow(2 * xi - 1, 2));
  return {x, y, side_sign * (0.003 + 0.09 * c.outline.trailing_edge[0].x * xi * (1 - xi))};
}

void add_cloth(Panel& p, const Case& c) {
  for (Side side : {Side::top, Side::bottom})
    for (int r = 0; r < p.rows; ++r)
      for (int k = 0; k < p.columns; ++k) {
        ClothNode n;
        n.side = side;
        n.row = r;
        n.column = k;
        n.placed = place(c, double(r) / (p.rows - 1), double(k) / (p.columns - 1), side == Side::top ? 1 : -1);
        p.nodes.push_back(n);
      }
  for (Side side : {Side::top, Side::bottom})
    for (int b = 0; b < p.bays; ++b)
      for (int s = 0; s < p.strips; ++s)
        p.zones.push_back({side, b, s, 0, {}, (side == Side::top ? "T" : "B") + std::to_string(b * p.strips + s + 1)});
  const int per_strip = (p.rows - 1) / p.strips, per_bay = (p.columns - 1) / p.bays;
  for (Side side : {Side::top, Side::bottom})
    for (int r = 0; r + 1 < p.rows; ++r)
      for (int k = 0; k + 1 < p.columns; ++k) {
        Quad q;
        q.nodes = {p.node(side, r, k), p.node(side, r + 1, k), p.node(side, r + 1, k + 1), p.node(side, r, k + 1)};
        q.side = side;
        q.row = r;
        q.column = k;
        q.bay = k / per_bay;
        q.zone = p.zone(side, q.bay, r / per_strip);
        q.area = (p.nodes[q.nodes[2]].placed - p.nodes[q.nodes[0]].placed)
                     .cross(p.nodes[q.nodes[3]].placed - p.nodes[q.nodes[1]].placed)
                     .norm() /
                 2;
        p.zones[q.zone].area += q.area;
        p.zones[q.zone].quads.push_back(static_cast<int>(p.quads.size()));
        p.quads.push_back(q);
      }
}

int add_joint(Panel& p, const Eigen::Vector3d& at) {
  for (std::size_t i = 0; i < p.joints.size(); ++i)
    if ((p.joints[i].position - at).norm() < 1e-9) return static_cast<int>(i);
  p.joints.push_back({at});
  return static_cast<int>(p.joints.size()) - 1;
}

void add_member(Panel& p, const std::string& name, MemberRole role, const std::vector<Eigen::Vector3d>& points) {
  FrameMember m{name, role, 0, {}, {}};
  for (const auto& at : points) m.joints.push_back(add_joint(p, {at.x(), at.y(), 0}));
  for (std::size_t i = 0; i + 1 < m.joints.size(); ++i) {
    Beam b;
    b.from = m.joints[i];
    b.to = m.joints[i + 1];
    b.member = static_cast<int>(p.members.size());
    m.beams.push_back(static_cast<int>(p.beams.size()));
    p.beams.push_back(b);
  }
  p.members.push_back(m);
}

void add_frame(Panel& p, const Case& c) {
  for (const auto& s : c.span_members) {
    std::vector<Eigen::Vector3d> points;
    for (int k = 0; k < p.columns; ++k) points.push_back(place(c, s.chord_fraction, double(k) / (p.columns - 1), 0));
    const auto role = s.role == SpanRole::leading_edge    ? MemberRole::leading_edge
                      : s.role == SpanRole::trailing_edge ? MemberRole::trailing_edge
                                                          : MemberRole::spar;
    add_member(p, s.name, role, points);
  }
  for (std::size_t i = 0; i < c.ribs.size(); ++i) {
    const bool last = i + 1 == c.ribs.size(), bow = last && c.tip_bow;
    std::vector<Eigen::Vector3d> points;
    for (double xi : {0.0, 0.1, 0.2, 0.3, 0.44, 0.58, 0.72, 0.86, 1.0})
      points.push_back(place(c, xi, c.ribs[i].station / c.outline.span(), 0));
    add_member(p, bow ? "tip bow" : "rib " + std::to_string(i + 1),
               bow              ? MemberRole::tip_bow
               : i == 0 || last ? MemberRole::end_rib
                                : MemberRole::inner_rib,
               points);
  }
}

}  // namespace

Panel sample_panel(const Case& c, const SampleWish& wish) {
  Panel p;
  p.bays = wish.bays;
  p.strips = wish.strips;
  p.rows = wish.strips * wish.rows_per_strip + 1;
  p.columns = wish.bays * wish.columns_per_bay + 1;
  for (int b = 0; b <= wish.bays; ++b) p.rib_columns.push_back(b * wish.columns_per_bay);
  for (int s = 0; s <= wish.strips; ++s) p.strip_rows.push_back(s * wish.rows_per_strip);
  add_cloth(p, c);
  add_frame(p, c);
  for (int k = 0; k < p.columns; ++k) p.edge_joint.push_back(p.members[2].joints[k]);
  return p;
}

}  // namespace evenpull
