#include "solver/geometry/frame_joints.hpp"

#include "solver/geometry/cut_outs.hpp"
#include "solver/geometry/nose.hpp"
#include "solver/geometry/welds.hpp"
#include "solver/statement/member_section.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace evenpull::inline solver {
namespace {

// A mesh row that passes a member that does not touch the cloth by less than this share of the chord is carried by the
// member's joint: a piece of rib between the two would be far stiffer than all else, and only for being short.
constexpr double same_joint = 1e-3;

// A shape that changes so near to a joint changes at it [m].
constexpr double same_place = 1e-6;

// What clamps pass on of a batten's stiffness along itself and against twist: next to nothing, the side on which the
// member beside it gets no help; more than nothing, so that no motion is without stiffness.
constexpr double share_of_clamps = 1e-3;

// Half the material in the same places: half the stiffness, and under half the load the same stress.
Section half_of(Section s) {
  for (double* of : {&s.area, &s.inertia_up, &s.inertia_flat, &s.torsion, &s.shear_up, &s.shear_flat, &s.warping})
    *of *= 0.5;
  return s;
}

// Lays the frame member by member; the steps stand in the order in which they need each other.
class FrameBuilder {
 public:
  FrameBuilder(const Case& c, const Surface& surface, const MeshLines& lines, Panel& p)
      : c_(c), surface_(surface), lines_(lines), p_(p) {}

  FrameJoints lay() {
    lay_span_members();
    lay_ribs();
    lay_braces();
    for (const Piece& piece : further_pieces_) lay_piece(piece);
    lay_pocket_fronts();
    lay_battens();
    mark_welds(c_, joints_, p_);
    return std::move(joints_);
  }

 private:
  int columns() const { return static_cast<int>(lines_.columns.size()); }
  bool is_end(int column) const { return ends_at(c_, column, columns()); }

  int add_joint(const Eigen::Vector3d& at) {
    p_.joints.push_back({at});
    return static_cast<int>(p_.joints.size()) - 1;
  }

  Section section_at(const MemberMake& make, const SectionShape& shape, double chord_fraction, SpanPlace place) const {
    const SectionRatios ratios = ratios_of(make, c_.materials);
    if (shape.kind == SectionShape::Kind::closed_nose)
      return nose_section(shape, ratios, nose_outline(surface_, chord_fraction, place));
    return section_of(shape, surface_.depth(chord_fraction, place), ratios);
  }
  Section section_at(const MemberMake& make, double chord_fraction, SpanPlace place) const {
    return section_at(make, make.shape, chord_fraction, place);
  }

  // Sections at the middle and at the two ends of a beam.
  struct Sections {
    Section middle, from, to;
    double shape_depth = 0;  // what stands in for a height of 0 at the middle [m]
  };

  // Where the shape changes within a piece or at one of its ends, that end has the weaker of both: stress is read there.
  Sections span_sections(const MemberMake& make, double chord_fraction, SpanPlace from, SpanPlace mid,
                         SpanPlace to) const {
    const auto station = [&](SpanPlace p) {
      const double a = c_.ribs[p.bay].station, b = c_.ribs[p.bay + 1].station;
      return a + p.share * (b - a);
    };
    const double y0 = station(from), y1 = station(to);
    const auto section = [&](double y, SpanPlace at) {
      return section_at(make, shape_at(make, y), chord_fraction, at);
    };
    Sections out{section(station(mid), mid), section(y0 + same_place, from), section(y1 - same_place, to),
                 surface_.depth(chord_fraction, mid)};
    if (make.changes.empty()) return out;
    const auto take_weaker = [&](Section& end, SpanPlace at, double low, double high) {
      for (const ShapeFrom& change : make.changes)
        if (change.station >= low - same_place && change.station <= high + same_place)
          for (const double y : {change.station - 2 * same_place, change.station}) end = weaker(end, section(y, at));
    };
    const bool within = std::any_of(make.changes.begin(), make.changes.end(), [&](const ShapeFrom& change) {
      return change.station > y0 + same_place && change.station < y1 - same_place;
    });
    take_weaker(out.from, from, y0, within ? y1 : y0);
    take_weaker(out.to, to, within ? y0 : y1, y1);
    return out;
  }

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

  // Joints that are more than free or fixed are no matter of geometry (solver/frame/joint_turn.hpp).
  void pin(const FrameMember& m, const JointMake& first, const JointMake& last) {
    p_.beams[m.beams.front()].hinge_from = first.kind == JointKind::pinned;
    p_.beams[m.beams.back()].hinge_to = last.kind == JointKind::pinned;
  }

  static MemberRole role_of(SpanRole r) {
    if (r == SpanRole::leading_edge) return MemberRole::leading_edge;
    return r == SpanRole::trailing_edge ? MemberRole::trailing_edge : MemberRole::spar;
  }

  // Columns between which a span member runs without a gap.
  struct Piece {
    int span_member = 0, first = 0, last = 0;
    std::string name;
  };

  // A pocket takes the trailing edge out between its sides, and at the end rib where it is open to that end.
  bool runs_at(int span_member, int column) const {
    if (c_.span_members[span_member].role != SpanRole::trailing_edge) return true;
    for (std::size_t k = 0; k < c_.pockets.size(); ++k) {
      const CutOut& out = p_.cut_outs[k];
      const bool past_side = column > out.first_column || column == 0;
      const bool before_side = column < out.last_column || column == columns() - 1;
      if (column >= out.first_column && column <= out.last_column && past_side && before_side) return false;
    }
    return true;
  }

  std::vector<Piece> pieces_of(int span_member) const {
    std::vector<Piece> pieces;
    for (int j = 0; j < columns(); ++j) {
      if (!runs_at(span_member, j)) continue;
      const bool goes_on = !pieces.empty() && pieces.back().last + 1 == j && !cut_between(span_member, j - 1);
      if (goes_on) pieces.back().last = j;
      else pieces.push_back({span_member, j, j, c_.span_members[span_member].name});
    }
    for (std::size_t k = 0; pieces.size() > 1 && k < pieces.size(); ++k)
      pieces[k].name += " (" + std::to_string(k + 1) + ")";
    return pieces;
  }

  // A pocket of a single interval has no column inside it.
  bool cut_between(int span_member, int column) const {
    if (c_.span_members[span_member].role != SpanRole::trailing_edge) return false;
    for (std::size_t k = 0; k < c_.pockets.size(); ++k)
      if (column >= p_.cut_outs[k].first_column && column < p_.cut_outs[k].last_column) return true;
    return false;
  }

  // Adds the beams of a make that runs along the span at a chord fraction.
  void add_run(FrameMember& member, const MemberMake& make, double fraction, int first,
               const std::vector<int>& joints) {
    const int index = static_cast<int>(p_.members.size());
    for (int k = 0; k + 1 < static_cast<int>(joints.size()); ++k) {
      const int j = first + k;
      SpanPlace mid = lines_.columns[j];
      const double next = lines_.columns[j + 1].bay == mid.bay ? lines_.columns[j + 1].share : 1.0;
      mid.share = 0.5 * (mid.share + next);
      add_beam(member, index, joints[k], joints[k + 1],
               span_sections(make, fraction, lines_.columns[j], mid, lines_.columns[j + 1]), Eigen::Vector3d::UnitZ());
    }
  }

  void lay_piece(const Piece& piece) {
    const SpanMember& s = c_.span_members[piece.span_member];
    FrameMember member;
    member.name = piece.name;
    member.role = role_of(s.role);
    member.material = s.make.material;
    member.shape = s.make.shape;
    member.span_member = piece.span_member;
    const auto& joints = joints_.span[piece.span_member];
    add_run(member, s.make, s.chord_fraction, piece.first,
            {joints.begin() + piece.first, joints.begin() + piece.last + 1});
    p_.members.push_back(member);
  }

  // The first piece of each stands among the members in the order of the case; further ones come after all else.
  void lay_span_members() {
    joints_.span.assign(c_.span_members.size(), {});
    for (int m = 0; m < static_cast<int>(c_.span_members.size()); ++m) {
      for (int j = 0; j < columns(); ++j)
        joints_.span[m].push_back(
            runs_at(m, j) ? add_joint(surface_.middle(c_.span_members[m].chord_fraction, lines_.columns[j])) : -1);
      const std::vector<Piece> pieces = pieces_of(m);
      lay_piece(pieces.front());
      further_pieces_.insert(further_pieces_.end(), pieces.begin() + 1, pieces.end());
    }
    p_.edge_joint = joints_.span.back();
  }

  void lay_pocket_fronts() {
    for (std::size_t k = 0; k < c_.pockets.size(); ++k) {
      const Pocket& stated = c_.pockets[k];
      const CutOut& out = p_.cut_outs[k];
      PanelPocket pocket;
      pocket.from_rib = rib_at_station(c_, stated.from);
      pocket.to_rib = rib_at_station(c_, stated.to);
      pocket.chord_fraction = pocket_front(c_, stated);
      const int spar = member_at_front(c_, stated);
      for (int j = out.first_column; j <= out.last_column; ++j) {
        const auto rib = std::find(lines_.rib_columns.begin(), lines_.rib_columns.end(), j);
        if (spar >= 0) pocket.front.push_back(joints_.span[spar][j]);
        else if (rib != lines_.rib_columns.end())
          pocket.front.push_back(
              joints_.of_rib(static_cast<int>(rib - lines_.rib_columns.begin()), pocket.chord_fraction));
        else pocket.front.push_back(add_joint(surface_.middle(pocket.chord_fraction, lines_.columns[j])));
        if (p_.edge_joint[j] < 0) p_.edge_joint[j] = pocket.front.back();
      }
      for (int side : {0, 1}) {
        const std::vector<int>& rib = joints_.rib[side == 0 ? pocket.from_rib : pocket.to_rib];
        for (std::size_t i = 0; i < rib.size(); ++i)
          if (joints_.rib_at[i] > pocket.chord_fraction - same_line) pocket.sides[side].push_back(rib[i]);
      }
      pocket.member = spar >= 0 ? spar : static_cast<int>(p_.members.size());
      if (spar < 0) {
        FrameMember member;
        member.name = stated.name + "'s front";
        member.role = MemberRole::pocket_front;
        member.material = stated.make->material;
        member.shape = stated.make->shape;
        add_run(member, *stated.make, pocket.chord_fraction, out.first_column, pocket.front);
        p_.members.push_back(member);
      }
      p_.pockets.push_back(pocket);
    }
  }

  // Where a rib ends: at the trailing edge, or at the front of the pocket that it meets from ahead.
  double end_of_rib(int rib) const {
    for (const Pocket& p : c_.pockets) {
      const int from = rib_at_station(c_, p.from), to = rib_at_station(c_, p.to);
      const bool past_side = rib > from || rib == 0;
      const bool before_side = rib < to || rib + 1 == static_cast<int>(c_.ribs.size());
      if (rib >= from && rib <= to && past_side && before_side) return pocket_front(c_, p);
    }
    return 1;
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
      const double end = end_of_rib(static_cast<int>(r));
      for (double f : at) {
        if (f > end + same_line) break;
        const int m = span_member_at(c_, f);
        joints_.rib[r].push_back(m >= 0 ? joints_.span[m][column]
                                        : add_joint(surface_.middle(f, lines_.columns[column])));
      }
      const int index = static_cast<int>(p_.members.size());
      // Half of a rib that lies in a mirror belongs to the bay beyond.
      const bool shared = !is_end(column) && (column == 0 || column == columns() - 1);
      const auto section = [&](double f) {
        const Section whole = section_at(make, f, lines_.columns[column]);
        return shared ? half_of(whole) : whole;
      };
      for (std::size_t k = 0; k + 1 < joints_.rib[r].size(); ++k)
        add_beam(member, index, joints_.rib[r][k], joints_.rib[r][k + 1],
                 {section(0.5 * (at[k] + at[k + 1])), section(at[k]), section(at[k + 1]),
                  surface_.depth(0.5 * (at[k] + at[k + 1]), lines_.columns[column])},
                 Eigen::Vector3d::UnitZ());
      if (!bow) pin(member, c_.ribs[r].front_joint, c_.ribs[r].rear_joint);
      p_.members.push_back(member);
    }
    joints_.rib_at = at;
  }

  // Of a rib, or the column nearest to the middle of the bay outboard of it.
  int column_of(int rib, bool mid_bay) const {
    const int first = lines_.rib_columns[rib];
    if (!mid_bay) return first;
    const auto off = [&](int j) { return std::abs(lines_.columns[j].share - 0.5); };
    int best = first + 1;
    for (int j = best; j < lines_.rib_columns[rib + 1]; ++j)
      if (off(j) < off(best)) best = j;
    return best;
  }

  template <class Stated>  // Batten or Brace
  static FrameMember member_of(const Stated& stated, MemberRole role) {
    FrameMember member;
    member.name = stated.name;
    member.role = role;
    member.material = stated.make.material;
    member.shape = stated.make.shape;
    member.comes_out = stated.comes_out;
    return member;
  }

  // Its ends turn freely, so that joints of the member beside it are not bridged; clamps slip along it.
  void lay_battens() {
    for (const Batten& b : c_.battens) {
      FrameMember member = member_of(b, MemberRole::batten);
      const std::vector<int>& along = b.rib >= 0 ? joints_.rib[b.rib] : joints_.span[b.span_member];
      Section section = section_of(b.make.shape, b.make.shape.height, ratios_of(b.make, c_.materials));
      section.area *= share_of_clamps, section.torsion *= share_of_clamps, section.warping = 0;
      const int index = static_cast<int>(p_.members.size());
      for (std::size_t k = 0; k + 1 < along.size(); ++k)
        add_beam(member, index, along[k], along[k + 1], {section, section, section, b.make.shape.height},
                 Eigen::Vector3d::UnitZ());
      p_.beams[member.beams.front()].hinge_from = p_.beams[member.beams.back()].hinge_to = true;
      p_.members.push_back(member);
    }
  }

  void lay_braces() {
    for (const Brace& b : c_.braces) {
      FrameMember member = member_of(b, MemberRole::brace);
      const int from = joints_.span[b.from_member][column_of(b.from_rib, b.from_mid_bay)];
      const int to = joints_.span[b.to_member][column_of(b.to_rib, b.to_mid_bay)];
      const int index = static_cast<int>(p_.members.size());
      Section section = section_of(b.make.shape, b.make.shape.height, ratios_of(b.make, c_.materials));
      if (b.wire) section.inertia_up = section.inertia_flat = section.torsion = section.warping = 0;  // ball ends
      const int column = lines_.rib_columns[b.from_rib];
      const bool at_ribs = !b.from_mid_bay && !b.to_mid_bay;
      if (at_ribs && b.from_rib == b.to_rib && !is_end(column) && (column == 0 || column == columns() - 1))
        section = half_of(section);
      add_beam(member, index, from, to, {section, section, section, b.make.shape.height}, Eigen::Vector3d::UnitZ());
      pin(member, b.from_joint, b.to_joint);
      p_.members.push_back(member);
    }
  }

  const Case& c_;
  const Surface& surface_;
  const MeshLines& lines_;
  Panel& p_;
  FrameJoints joints_;
  std::vector<Piece> further_pieces_;
};

}  // namespace

int FrameJoints::of_rib(int which, double chord_fraction) const {
  const auto off = [&](double at) { return std::abs(at - chord_fraction); };
  const auto nearest =
      std::min_element(rib_at.begin(), rib_at.end(), [&](double a, double b) { return off(a) < off(b); });
  const auto k = static_cast<std::size_t>(nearest - rib_at.begin());
  return off(*nearest) < same_joint && k < rib[which].size() ? rib[which][k] : -1;  // a rib may end at a pocket
}

bool ends_at(const Case& c, int column, int columns) {
  return (column == 0 && !c.cloth_goes_on_inboard) || (column == columns - 1 && !c.cloth_goes_on_outboard);
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
