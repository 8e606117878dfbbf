#include "solver/geometry/panel.hpp"

#include "solver/geometry/mesh_lines.hpp"
#include "solver/geometry/surface.hpp"
#include "solver/statement/errors.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <iomanip>
#include <sstream>

namespace evenpull {
namespace {

constexpr double near = 1e-9;  // of a chord fraction: two lines closer than this are the same line

// A mesh row that passes a member that does not touch the cloth by less than this share of the chord is carried by the
// member's joint: a piece of rib between the two would be far stiffer than all else, and only for being short.
constexpr double same_joint = 1e-3;

// Builds a panel piece by piece; the steps stand in the order in which they need each other.
class Builder {
 public:
  Builder(const Case& c, const MeshWish& wish) : c_(c), surface_(c), lines_(lay_mesh_lines(c, surface_, wish)) {}

  Panel build() {
    lay_cloth();
    lay_span_members();
    lay_ribs();
    lay_braces();
    tie_cloth();
    cut_zones();
    p_.fullness = fullness();
    return std::move(p_);
  }

 private:
  int columns() const { return static_cast<int>(lines_.columns.size()); }
  int rows() const { return static_cast<int>(lines_.rows.size()); }
  bool is_end(int column) const { return column == 0 || column == columns() - 1; }
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
    const Eigen::Vector3d span = at(n.row, j1) - at(n.row, j0);
    n.normal = n.along_chord.cross(span).normalized();
    if (n.side == Side::bottom) n.normal = -n.normal;
    n.along_span = (span - span.dot(n.along_chord) * n.along_chord).normalized();
  }

  int add_joint(const Eigen::Vector3d& at) {
    p_.joints.push_back({at});
    return static_cast<int>(p_.joints.size()) - 1;
  }

  Section section_at(const MemberMake& make, double chord_fraction, SpanPlace place) const {
    if (make.shape.kind != SectionShape::Kind::closed_nose)
      return section_of(make.shape, surface_.depth(chord_fraction, place));
    // The D from the LE to the member, top out and bottom back; the closing edge is the web.
    constexpr int points = 24;
    std::vector<SectionPoint> wall;
    const double chord = surface_.chord(place);
    const auto xi = [&](int i) { return chord_fraction * (1 - std::cos(1.5707963267948966 * i / points)); };
    for (int i = 0; i <= points; ++i) wall.push_back({xi(i) * chord, surface_.profile(xi(i)).top * chord});
    for (int i = points; i >= 0; --i) wall.push_back({xi(i) * chord, -surface_.profile(xi(i)).bottom * chord});
    return closed_section(wall, make.shape.wall);
  }

  // Sections at the middle and at the two ends of a beam.
  struct Sections {
    Section middle, from, to;
  };

  void add_beam(FrameMember& m, int member, int from, int to, const Sections& s, const Eigen::Vector3d& up) {
    Beam b;
    b.from = from;
    b.to = to;
    b.member = member;
    b.section = s.middle;
    b.section_from = s.from;
    b.section_to = s.to;
    b.up = up;
    if (m.joints.empty()) m.joints.push_back(from);
    m.joints.push_back(to);
    m.beams.push_back(static_cast<int>(p_.beams.size()));
    p_.beams.push_back(b);
  }

  static MemberRole role_of(SpanRole r) {
    if (r == SpanRole::leading_edge) return MemberRole::leading_edge;
    return r == SpanRole::trailing_edge ? MemberRole::trailing_edge : MemberRole::spar;
  }

  void lay_span_members() {
    span_joint_.assign(c_.span_members.size(), {});
    for (std::size_t m = 0; m < c_.span_members.size(); ++m) {
      const SpanMember& s = c_.span_members[m];
      FrameMember member;
      member.name = s.name;
      member.role = role_of(s.role);
      member.material = s.make.material;
      for (int j = 0; j < columns(); ++j)
        span_joint_[m].push_back(add_joint(surface_.middle(s.chord_fraction, lines_.columns[j])));
      const int index = static_cast<int>(p_.members.size());
      for (int j = 0; j + 1 < columns(); ++j) {
        SpanPlace mid = lines_.columns[j];
        const double next = lines_.columns[j + 1].bay == mid.bay ? lines_.columns[j + 1].share : 1.0;
        mid.share = 0.5 * (mid.share + next);
        const auto section = [&](SpanPlace at) { return section_at(s.make, s.chord_fraction, at); };
        add_beam(member, index, span_joint_[m][j], span_joint_[m][j + 1],
                 {section(mid), section(lines_.columns[j]), section(lines_.columns[j + 1])}, Eigen::Vector3d::UnitZ());
      }
      p_.members.push_back(member);
    }
    p_.edge_joint = span_joint_.back();
  }

  // Chord fractions of a rib's joints: span members, and mesh rows aft of the first one.
  std::vector<double> rib_fractions() const {
    std::vector<double> at;
    for (const SpanMember& m : c_.span_members) at.push_back(m.chord_fraction);
    for (double r : lines_.rows)
      if (r > c_.span_members.front().chord_fraction &&
          std::none_of(at.begin(), at.end(), [&](double a) { return std::abs(a - r) < same_joint; }))
        at.push_back(r);
    std::sort(at.begin(), at.end());
    return at;
  }

  int span_member_at(double fraction) const {
    for (std::size_t m = 0; m < c_.span_members.size(); ++m)
      if (std::abs(c_.span_members[m].chord_fraction - fraction) < near) return static_cast<int>(m);
    return -1;
  }

  void lay_ribs() {
    const std::vector<double> at = rib_fractions();
    rib_joint_.assign(c_.ribs.size(), {});
    for (std::size_t r = 0; r < c_.ribs.size(); ++r) {
      const int column = lines_.rib_columns[r];
      const bool bow = c_.tip_bow && r + 1 == c_.ribs.size();
      const MemberMake& make = bow ? *c_.tip_bow : c_.ribs[r].make;
      FrameMember member;
      member.role = bow ? MemberRole::tip_bow : is_end(column) ? MemberRole::end_rib : MemberRole::inner_rib;
      member.name = bow ? "tip bow" : (is_end(column) ? "end rib " : "rib ") + std::to_string(r + 1);
      member.material = make.material;
      for (double f : at) {
        const int m = span_member_at(f);
        rib_joint_[r].push_back(m >= 0 ? span_joint_[m][column] : add_joint(surface_.middle(f, lines_.columns[column])));
      }
      const int index = static_cast<int>(p_.members.size());
      const auto section = [&](double f) { return section_at(make, f, lines_.columns[column]); };
      for (std::size_t k = 0; k + 1 < at.size(); ++k)
        add_beam(member, index, rib_joint_[r][k], rib_joint_[r][k + 1],
                 {section(0.5 * (at[k] + at[k + 1])), section(at[k]), section(at[k + 1])}, Eigen::Vector3d::UnitZ());
      if (!bow && c_.ribs[r].hinged_ends) {
        p_.beams[member.beams.front()].hinge_from = true;
        p_.beams[member.beams.back()].hinge_to = true;
      }
      p_.members.push_back(member);
    }
    rib_at_ = at;
  }

  void lay_braces() {
    for (const Brace& b : c_.braces) {
      FrameMember member;
      member.name = b.name;
      member.role = MemberRole::brace;
      member.material = b.make.material;
      const int from = span_joint_[b.from_member][lines_.rib_columns[b.from_rib]];
      const int to = span_joint_[b.to_member][lines_.rib_columns[b.to_rib]];
      const int index = static_cast<int>(p_.members.size());
      const Section section = section_of(b.make.shape, b.make.shape.height);
      add_beam(member, index, from, to, {section, section, section}, Eigen::Vector3d::UnitZ());
      p_.members.push_back(member);
    }
  }

  // Member that carries the metal nose: the last one that lies within it, else the first.
  int nose_member() const {
    int m = 0;
    for (std::size_t i = 0; i < c_.span_members.size(); ++i)
      if (c_.span_members[i].chord_fraction <= c_.blanket.nose_chord_fraction + near) m = static_cast<int>(i);
    return m;
  }

  int rib_joint(int rib, double fraction) const {
    const auto off = [&](double at) { return std::abs(at - fraction); };
    const auto nearest =
        std::min_element(rib_at_.begin(), rib_at_.end(), [&](double a, double b) { return off(a) < off(b); });
    return off(*nearest) < same_joint ? rib_joint_[rib][static_cast<std::size_t>(nearest - rib_at_.begin())] : -1;
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
        tie(n, Tie::glued, span_joint_.front()[n.column]);
      } else if (nose && f <= c_.blanket.nose_chord_fraction + near) {
        tie(n, end ? Tie::glued : Tie::bearing, span_joint_[nose_member()][n.column]);
        n.on_nose = true;
      } else if (rib >= 0) {
        int joint = rib_joint(rib, f);
        if (joint < 0) joint = span_joint_.front()[n.column];  // ahead of the first member
        const bool glued = end || c_.blanket.inner_ribs == RibTie::glued;
        tie(n, glued ? Tie::glued : Tie::bearing, joint);
      } else {
        const int m = span_member_at(f);
        if (m >= 0 && c_.span_members[m].touches_cloth) tie(n, Tie::bearing, span_joint_[m][n.column]);
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
          q.nodes = {p_.node(side, i, j), p_.node(side, i + 1, j), p_.node(side, i + 1, j + 1), p_.node(side, i, j + 1)};
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
  std::vector<std::vector<int>> span_joint_;  // [member][column]
  std::vector<std::vector<int>> rib_joint_;   // [rib][k], at chord fraction rib_at_[k]
  std::vector<double> rib_at_;
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
      throw CaseError("ribs.stations",
                      in_one_place("rib " + std::to_string(i), "rib " + std::to_string(i + 1), apart));
}

}  // namespace

Panel build_panel(const Case& c, const MeshWish& wish) {
  assert(c.ribs.size() >= 2 && c.span_members.size() >= 2 && c.profile.size() >= 2);
  check_apart(c);
  return Builder(c, wish).build();
}

}  // namespace evenpull
