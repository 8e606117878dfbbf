#include "solver/geometry/panel.hpp"

#include "solver/geometry/frame_joints.hpp"
#include "solver/geometry/mesh_lines.hpp"
#include "solver/geometry/surface.hpp"
#include "solver/statement/errors.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <iomanip>
#include <sstream>

namespace evenpull::inline solver {
namespace {

// Builds a panel piece by piece; the steps stand in the order in which they need each other.
class Builder {
 public:
  Builder(const Case& c, const MeshOptions& options)
      : c_(c), surface_(c), lines_(lay_mesh_lines(c, surface_, options)) {}

  Panel build() {
    lay_cloth();
    frame_ = lay_frame(c_, surface_, lines_, p_);
    tie_cloth();
    cut_zones();
    p_.fullness = fullness();
    return std::move(p_);
  }

 private:
  int columns() const { return static_cast<int>(lines_.columns.size()); }
  int rows() const { return static_cast<int>(lines_.rows.size()); }
  bool is_end(int column) const { return ends_at(c_, column, columns()); }
  // The mirror of a bay that goes on beyond.
  bool in_mirror(int column) const { return !is_end(column) && (column == 0 || column == columns() - 1); }
  int rib_at(int column) const {
    const auto it = std::find(lines_.rib_columns.begin(), lines_.rib_columns.end(), column);
    return it == lines_.rib_columns.end() ? -1 : static_cast<int>(it - lines_.rib_columns.begin());
  }

  void lay_cloth() {
    p_.rows = rows();
    p_.columns = columns();
    p_.bays = static_cast<int>(c_.ribs.size()) - 1;
    p_.strips = lines_.strips;
    p_.rib_columns = lines_.rib_columns;
    p_.strip_rows = lines_.strip_rows;
    for (Side side : {Side::top, Side::bottom})
      for (int i = 0; i < rows(); ++i)
        for (int j = 0; j < columns(); ++j) {
          ClothNode n;
          n.placed = surface_.skin(side, lines_.rows[i], lines_.columns[j]);
          n.side = side;
          n.row = i;
          n.column = j;
          p_.nodes.push_back(n);
        }
    for (ClothNode& n : p_.nodes) set_directions(n);
  }

  void set_directions(ClothNode& n) {
    const auto at = [&](int i, int j) -> const Eigen::Vector3d& { return p_.nodes[p_.node(n.side, i, j)].placed; };
    const int i0 = std::max(0, n.row - 1), i1 = std::min(rows() - 1, n.row + 1);
    const int j0 = std::max(0, n.column - 1), j1 = std::min(columns() - 1, n.column + 1);
    n.along_chord = (at(i1, n.column) - at(i0, n.column)).normalized();
    const Eigen::Vector3d span = in_mirror(n.column) ? Eigen::Vector3d::UnitY()
                                                     : Eigen::Vector3d(at(n.row, j1) - at(n.row, j0));
    n.normal = n.along_chord.cross(span).normalized();
    if (n.side == Side::bottom) n.normal = -n.normal;
    n.along_span = (span - span.dot(n.along_chord) * n.along_chord).normalized();
  }

  // Member that carries the metal nose: the last one that lies within it, else the first.
  int nose_member() const {
    int m = 0;
    for (std::size_t i = 0; i < c_.span_members.size(); ++i)
      if (c_.span_members[i].chord_fraction <= c_.blanket.nose_chord_fraction + same_line) m = static_cast<int>(i);
    return m;
  }

  void tie_cloth() {
    const bool nose = c_.blanket.nose_chord_fraction > c_.blanket.seam_chord_fraction;
    const bool edge_glued = c_.blanket.kind == BlanketKind::two_sheets || c_.blanket.edge_glued;
    for (ClothNode& n : p_.nodes) {
      const double f = lines_.rows[n.row];
      const int rib = rib_at(n.column);
      const bool end = is_end(n.column);
      if (n.row == rows() - 1) {
        tie(n, edge_glued || end ? Tie::glued : Tie::wrapped, p_.edge_joint[n.column]);
      } else if (n.row == 0) {
        tie(n, Tie::glued, frame_.span.front()[n.column]);
      } else if (nose && f <= c_.blanket.nose_chord_fraction + same_line) {
        tie(n, end ? Tie::glued : Tie::bearing, frame_.span[nose_member()][n.column]);
        n.on_nose = true;
      } else if (rib >= 0) {
        int joint = frame_.of_rib(rib, f);
        if (joint < 0) joint = frame_.span.front()[n.column];  // ahead of the first member
        const bool glued = end || c_.blanket.inner_ribs == RibTie::glued;
        tie(n, glued ? Tie::glued : Tie::bearing, joint);
      } else {
        const int m = span_member_at(c_, f);
        if (m >= 0 && c_.span_members[m].touches_cloth) tie(n, Tie::bearing, frame_.span[m][n.column]);
      }
    }
  }

  void tie(ClothNode& n, Tie kind, int joint) {
    n.tie = kind;
    n.joint = joint;
    n.offset = n.placed - p_.joints[joint].position;
  }

  void cut_zones() {
    p_.zones.resize(static_cast<std::size_t>(2 * p_.bays * p_.strips));
    const double warp = c_.cloth.warp_angle;
    // The blanket turns over at the TE: a yarn at an angle to the TE leaves it at the mirrored one.
    const double mirrored = 2 * std::atan(surface_.trailing_edge_sweep()) - warp;
    const bool wrap = c_.blanket.kind == BlanketKind::full_wrap;
    for (Side side : {Side::top, Side::bottom})
      for (int i = 0; i + 1 < rows(); ++i)
        for (int j = 0; j + 1 < columns(); ++j) {
          Quad q;
          q.nodes = {p_.node(side, i, j), p_.node(side, i + 1, j), p_.node(side, i + 1, j + 1),
                     p_.node(side, i, j + 1)};
          q.side = side;
          q.row = i;
          q.column = j;
          q.bay = lines_.columns[j].bay;
          int strip = 0;
          while (p_.strip_rows[strip + 1] <= i) ++strip;
          q.zone = p_.zone(side, q.bay, strip);
          q.warp_angle = side == Side::bottom && wrap ? mirrored : warp;
          const auto at = [&](int k) { return p_.nodes[q.nodes[k]].placed; };
          // Mean of both diagonals, as the law is evaluated.
          q.area = 0.25 * ((at(1) - at(0)).cross(at(2) - at(0)).norm() + (at(2) - at(0)).cross(at(3) - at(0)).norm() +
                           (at(2) - at(1)).cross(at(3) - at(1)).norm() + (at(1) - at(0)).cross(at(3) - at(0)).norm());
          Zone& z = p_.zones[q.zone];
          z.side = side;
          z.bay = q.bay;
          z.strip = strip;
          z.area += q.area;
          z.label = side == Side::top ? "T" : "B";
          z.label += std::to_string(q.bay * p_.strips + strip + 1);
          z.quads.push_back(static_cast<int>(p_.quads.size()));
          p_.quads.push_back(q);
        }
  }

  // Excess length of the fullest span line of the last bay over its straight chord.
  double fullness() const {
    if (!c_.tip_bow) return 0;
    double worst = 0;
    const int from = lines_.rib_columns[lines_.rib_columns.size() - 2];
    for (int i = 0; i < rows(); ++i) {
      double arc = 0;
      const auto at = [&](int j) { return p_.nodes[p_.node(Side::top, i, j)].placed; };
      for (int j = from; j + 1 < columns(); ++j) arc += (at(j + 1) - at(j)).norm();
      worst = std::max(worst, arc / (at(columns() - 1) - at(from)).norm() - 1);
    }
    return worst;
  }

  const Case& c_;
  Surface surface_;
  MeshLines lines_;
  Panel p_;
  FrameJoints frame_;
};

std::string in_one_place(const std::string& one, const std::string& other, double apart) {
  constexpr int digits = 3;
  std::ostringstream mm;
  mm << std::setprecision(digits) << 1000 * apart;
  return one + " and " + other + " stand " + mm.str() +
         " mm apart, practically in one place; state one of them, or where the other one really stands";
}

void check_apart(const Case& c) {
  const double chord = c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x;
  for (std::size_t i = 1; i < c.span_members.size(); ++i) {
    const SpanMember &a = c.span_members[i - 1], &b = c.span_members[i];
    const double apart = b.chord_fraction - a.chord_fraction;
    if (apart < least_apart)
      throw CaseError("member", in_one_place("\"" + a.name + "\"", "\"" + b.name + "\"", apart * chord));
  }
  const double span = c.ribs.back().station - c.ribs.front().station;
  for (std::size_t i = 1; i < c.ribs.size(); ++i)
    if (const double apart = c.ribs[i].station - c.ribs[i - 1].station; apart < least_apart * span)
      throw CaseError("ribs.stations", in_one_place("rib " + std::to_string(i), "rib " + std::to_string(i + 1), apart));
}

}  // namespace

Panel build_panel(const Case& c, const MeshOptions& options) {
  assert(c.ribs.size() >= 2 && c.span_members.size() >= 2 && c.profile.size() >= 2);
  check_apart(c);
  return Builder(c, options).build();
}

}  // namespace evenpull::inline solver
