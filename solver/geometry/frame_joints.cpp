#include "solver/geometry/frame_joints.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace evenpull::inline solver {
namespace {

// A mesh row that passes a member that does not touch the cloth by less than this share of the chord is carried by the
// member's joint: a piece of rib between the two would be far stiffer than all else, and only for being short.
constexpr double same_joint = 1e-3;

// Lays the frame member by member; the steps stand in the order in which they need each other.
class FrameBuilder {
 public:
  FrameBuilder(const Case& c, const Surface& surface, const MeshLines& lines, Panel& p)
      : c_(c), surface_(surface), lines_(lines), p_(p) {}

  FrameJoints lay() {
    lay_span_members();
    lay_ribs();
    lay_braces();
    return std::move(joints_);
  }

 private:
  int columns() const { return static_cast<int>(lines_.columns.size()); }
  bool is_end(int column) const { return column == 0 || column == columns() - 1; }

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
    double shape_depth = 0;  // what stands in for a height of 0 at the middle [m]
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
    b.shape_depth = s.shape_depth;
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
    joints_.span.assign(c_.span_members.size(), {});
    for (std::size_t m = 0; m < c_.span_members.size(); ++m) {
      const SpanMember& s = c_.span_members[m];
      FrameMember member;
      member.name = s.name;
      member.role = role_of(s.role);
      member.material = s.make.material;
      member.shape = s.make.shape;
      for (int j = 0; j < columns(); ++j)
        joints_.span[m].push_back(add_joint(surface_.middle(s.chord_fraction, lines_.columns[j])));
      const int index = static_cast<int>(p_.members.size());
      for (int j = 0; j + 1 < columns(); ++j) {
        SpanPlace mid = lines_.columns[j];
        const double next = lines_.columns[j + 1].bay == mid.bay ? lines_.columns[j + 1].share : 1.0;
        mid.share = 0.5 * (mid.share + next);
        const auto section = [&](SpanPlace at) { return section_at(s.make, s.chord_fraction, at); };
        add_beam(member, index, joints_.span[m][j], joints_.span[m][j + 1],
                 {section(mid), section(lines_.columns[j]), section(lines_.columns[j + 1]),
                  surface_.depth(s.chord_fraction, mid)},
                 Eigen::Vector3d::UnitZ());
      }
      p_.members.push_back(member);
    }
    p_.edge_joint = joints_.span.back();
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

  void lay_ribs() {
    const std::vector<double> at = rib_fractions();
    joints_.rib.assign(c_.ribs.size(), {});
    for (std::size_t r = 0; r < c_.ribs.size(); ++r) {
      const int column = lines_.rib_columns[r];
      const bool bow = c_.tip_bow && r + 1 == c_.ribs.size();
      const MemberMake& make = bow ? *c_.tip_bow : c_.ribs[r].make;
      FrameMember member;
      member.role = bow ? MemberRole::tip_bow : is_end(column) ? MemberRole::end_rib : MemberRole::inner_rib;
      member.name = bow ? "tip bow" : (is_end(column) ? "end rib " : "rib ") + std::to_string(r + 1);
      member.material = make.material;
      member.shape = make.shape;
      for (double f : at) {
        const int m = span_member_at(c_, f);
        joints_.rib[r].push_back(m >= 0 ? joints_.span[m][column]
                                        : add_joint(surface_.middle(f, lines_.columns[column])));
      }
      const int index = static_cast<int>(p_.members.size());
      const auto section = [&](double f) { return section_at(make, f, lines_.columns[column]); };
      for (std::size_t k = 0; k + 1 < at.size(); ++k)
        add_beam(member, index, joints_.rib[r][k], joints_.rib[r][k + 1],
                 {section(0.5 * (at[k] + at[k + 1])), section(at[k]), section(at[k + 1]),
                  surface_.depth(0.5 * (at[k] + at[k + 1]), lines_.columns[column])},
                 Eigen::Vector3d::UnitZ());
      if (!bow && c_.ribs[r].hinged_ends) {
        p_.beams[member.beams.front()].hinge_from = true;
        p_.beams[member.beams.back()].hinge_to = true;
      }
      p_.members.push_back(member);
    }
    joints_.rib_at = at;
  }

  void lay_braces() {
    for (const Brace& b : c_.braces) {
      FrameMember member;
      member.name = b.name;
      member.role = MemberRole::brace;
      member.material = b.make.material;
      member.shape = b.make.shape;
      const int from = joints_.span[b.from_member][lines_.rib_columns[b.from_rib]];
      const int to = joints_.span[b.to_member][lines_.rib_columns[b.to_rib]];
      const int index = static_cast<int>(p_.members.size());
      const Section section = section_of(b.make.shape, b.make.shape.height);
      add_beam(member, index, from, to, {section, section, section, b.make.shape.height}, Eigen::Vector3d::UnitZ());
      p_.members.push_back(member);
    }
  }

  const Case& c_;
  const Surface& surface_;
  const MeshLines& lines_;
  Panel& p_;
  FrameJoints joints_;
};

}  // namespace

int FrameJoints::of_rib(int which, double chord_fraction) const {
  const auto off = [&](double at) { return std::abs(at - chord_fraction); };
  const auto nearest =
      std::min_element(rib_at.begin(), rib_at.end(), [&](double a, double b) { return off(a) < off(b); });
  return off(*nearest) < same_joint ? rib[which][static_cast<std::size_t>(nearest - rib_at.begin())] : -1;
}

int span_member_at(const Case& c, double chord_fraction) {
  for (std::size_t m = 0; m < c.span_members.size(); ++m)
    if (std::abs(c.span_members[m].chord_fraction - chord_fraction) < same_line) return static_cast<int>(m);
  return -1;
}

FrameJoints lay_frame(const Case& c, const Surface& surface, const MeshLines& lines, Panel& p) {
  return FrameBuilder(c, surface, lines, p).lay();
}

}  // namespace evenpull::inline solver
