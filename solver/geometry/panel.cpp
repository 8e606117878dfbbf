#include "solver/geometry/panel.hpp"

#include "solver/geometry/cut_outs.hpp"
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

// Of a rib that an attachment names the cloth is fastened in time, not by how it was laid on.
bool is_scheduled(const Case& c, int rib) {
  return std::any_of(c.attachments.begin(), c.attachments.end(), [rib](const Attachment& a) {
    return std::find(a.ribs.begin(), a.ribs.end(), rib) != a.ribs.end();
  });
}

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
    p_.cut_outs = cut_outs_on(c_, lines_);
    for (const Rib& r : c_.ribs) p_.rib_carries.push_back(r.touches_cloth ? 1 : 0);
    p_.rib_carries.front() = p_.rib_carries.back() = 1;
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
    for (ClothNode& n : p_.nodes) {
      set_directions(n);
      n.absent = is_absent(n);
    }
  }

  bool is_cut_out(int row, int column) const {
    return std::any_of(p_.cut_outs.begin(), p_.cut_outs.end(), [&](const CutOut& c) {
      return row >= c.first_row && row < c.last_row && column >= c.first_column && column < c.last_column;
    });
  }

  // No cloth beside it.
  bool is_absent(const ClothNode& n) const {
    for (int i : {n.row - 1, n.row})
      for (int j : {n.column - 1, n.column})
        if (i >= 0 && j >= 0 && i + 1 < rows() && j + 1 < columns() && !is_cut_out(i, j)) return false;
    return true;
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
      if (n.absent || tie_round_cut_out(n)) continue;
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
      } else if (rib >= 0 && p_.rib_carries[rib]) {
        const int joint = rib_joint(rib, n);
        const bool glued = end || (c_.blanket.inner_ribs == RibTie::glued && !is_scheduled(c_, rib));
        tie(n, glued ? Tie::glued : Tie::bearing, joint);
      } else {
        const int m = span_member_at(c_, f);
        if (m >= 0 && c_.span_members[m].touches_cloth) tie(n, Tie::bearing, frame_.span[m][n.column]);
      }
    }
  }

  int rib_joint(int rib, const ClothNode& n) const {
    const int joint = frame_.of_rib(rib, lines_.rows[n.row]);
    return joint < 0 ? frame_.span.front()[n.column] : joint;  // ahead of the first member
  }

  // The cloth is glued round a pocket to its front and its side ribs, round a hinge gap to the nose.
  bool tie_round_cut_out(ClothNode& n) {
    for (std::size_t k = 0; k < p_.cut_outs.size(); ++k) {
      const CutOut& c = p_.cut_outs[k];
      if (n.row < c.first_row || n.row > c.last_row || n.column < c.first_column || n.column > c.last_column) continue;
      if (k >= p_.pockets.size()) {
        tie(n, Tie::glued, frame_.span[n.row == 0 ? 0 : nose_member()][n.column]);
        n.on_nose = n.row > 0;
      } else if (n.row == c.first_row) {
        tie(n, Tie::glued, p_.pockets[k].front[n.column - c.first_column]);
      } else {
        tie(n, Tie::glued, n.row + 1 == rows() ? p_.edge_joint[n.column] : rib_joint(rib_at(n.column), n));
      }
      return true;
    }
    return false;
  }

  void tie(ClothNode& n, Tie kind, int joint) {
    n.tie = kind;
    n.joint = joint;
    n.offset = n.placed - p_.joints[joint].position;
  }

  void cut_zones() {
    std::vector<Zone> zones(static_cast<std::size_t>(2 * p_.bays * p_.strips));
    const ZonesLeft left(c_, surface_, lines_);
    for (Side side : {Side::top, Side::bottom})
      for (int i = 0; i + 1 < rows(); ++i)
        for (int j = 0; j + 1 < columns(); ++j) {
          if (is_cut_out(i, j)) continue;
          Quad q = quad_at(side, i, j);
          const int strip = left.strip(q.bay, i);
          q.zone = (static_cast<int>(side) * p_.bays + q.bay) * p_.strips + strip;
          Zone& z = zones[q.zone];
          z.side = side;
          z.bay = q.bay;
          z.strip = strip;
          z.area += q.area;
          z.quads.push_back(static_cast<int>(p_.quads.size()));
          p_.quads.push_back(q);
        }
    number_zones(zones);
  }

  Quad quad_at(Side side, int i, int j) const {
    const double warp = c_.cloth.warp_angle;
    // The blanket turns over at the TE: a yarn at an angle to the TE leaves it at the mirrored one.
    const bool turned = side == Side::bottom && c_.blanket.kind == BlanketKind::full_wrap;
    Quad q;
    q.nodes = {p_.node(side, i, j), p_.node(side, i + 1, j), p_.node(side, i + 1, j + 1), p_.node(side, i, j + 1)};
    q.side = side;
    q.row = i;
    q.column = j;
    q.bay = lines_.columns[j].bay;
    q.warp_angle = turned ? 2 * std::atan(surface_.trailing_edge_sweep()) - warp : warp;
    const auto at = [&](int k) { return p_.nodes[q.nodes[k]].placed; };
    // Mean of both diagonals, as the law is evaluated.
    q.area = 0.25 * ((at(1) - at(0)).cross(at(2) - at(0)).norm() + (at(2) - at(0)).cross(at(3) - at(0)).norm() +
                     (at(2) - at(1)).cross(at(3) - at(1)).norm() + (at(1) - at(0)).cross(at(3) - at(0)).norm());
    return q;
  }

  // Those that have cloth, counted on each side.
  void number_zones(std::vector<Zone>& all) {
    p_.zone_at.assign(all.size(), -1);
    int count[2] = {0, 0};
    for (std::size_t at = 0; at < all.size(); ++at) {
      Zone& z = all[at];
      if (z.quads.empty()) continue;
      z.label = (z.side == Side::top ? "T" : "B") + std::to_string(++count[static_cast<int>(z.side)]);
      p_.zone_at[at] = static_cast<int>(p_.zones.size());
      p_.zones.push_back(std::move(z));
    }
    for (Quad& q : p_.quads) q.zone = p_.zone_at[q.zone];
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

int Panel::pocket_in(int bay) const {
  for (std::size_t k = 0; k < pockets.size(); ++k)
    if (bay >= pockets[k].from_rib && bay < pockets[k].to_rib) return static_cast<int>(k);
  return -1;
}

int Panel::last_row(int bay) const {
  const int pocket = pocket_in(bay);
  return pocket < 0 ? rows - 1 : cut_outs[pocket].first_row;
}

std::vector<int> Panel::edge_of(int bay) const {
  const int from = rib_columns[bay], to = rib_columns[bay + 1], pocket = pocket_in(bay);
  if (pocket < 0) return {edge_joint.begin() + from, edge_joint.begin() + to + 1};
  const std::vector<int>& front = pockets[pocket].front;
  const int first = cut_outs[pocket].first_column;
  return {front.begin() + from - first, front.begin() + to + 1 - first};
}

int Panel::carried_from(int bay) const {
  int rib = bay;
  while (rib > 0 && !rib_carries.empty() && !rib_carries[rib]) --rib;
  return rib;
}

int Panel::carried_to(int bay) const {
  int rib = bay + 1;
  while (rib < bays && !rib_carries.empty() && !rib_carries[rib]) ++rib;
  return rib;
}

Panel build_panel(const Case& c, const MeshOptions& options) {
  assert(c.ribs.size() >= 2 && c.span_members.size() >= 2 && c.profile.size() >= 2);
  check_apart(c);
  return Builder(c, options).build();
}

}  // namespace evenpull::inline solver
