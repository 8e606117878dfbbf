// From joints as they are made to springs at the ends of ribs and braces (docs/model.md, section 5).
#include "solver/equilibrium/model.hpp"
#include "solver/frame/joint_turn.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr JointKind all_kinds[] = {JointKind::unstated, JointKind::rigid,        JointKind::pinned,
                                   JointKind::welded,   JointKind::welded_thin,  JointKind::gusset,
                                   JointKind::single,   JointKind::glued_gusset, JointKind::glued_block,
                                   JointKind::tied,     JointKind::slid_in};

JoinedMember sheet_rib() {
  JoinedMember m;
  m.shape.kind = SectionShape::Kind::sheet_rib;
  m.shape.wall = 0.5e-3;
  m.youngs_modulus = 72.4e9;
  m.bending_up = 4600, m.bending_flat = 158;
  return m;
}

Case joined(JointKind kind) {
  Case c = sample::light_rudder(3);
  for (Rib& r : c.ribs) r.front_joint.kind = r.rear_joint.kind = kind;
  return c;
}

}  // namespace

TEST_CASE("ranges of joints are in order, and the usual one lies within unless nothing was stated") {
  for (const JointKind kind : all_kinds)
    for (const int fasteners : {1, 2, 4}) {
      JointMake j;
      j.kind = kind, j.fasteners = fasteners;
      for (const TurnRange& r : {turn_of(j, sheet_rib()).up, turn_of(j, sheet_rib()).flat}) {
        CHECK(r.low <= r.high);
        CHECK(r.low <= r.usual);
        if (kind != JointKind::unstated) CHECK(r.usual <= r.high);
        if (!has_range(kind)) CHECK(r.low == r.high);
      }
    }
}

TEST_CASE("alpha goes from one end of its range to the other by equal ratios") {
  const TurnRange r{2, 6, 32};
  CHECK(alpha_at(r, {}) == 6);
  CHECK(alpha_at(r, 0.0) == 2);
  CHECK(alpha_at(r, 0.5) == Approx(8));
  CHECK(alpha_at(r, 1.0) == Approx(32));
  CHECK(alpha_at({0, 0, 0.1}, 0.0) == least_alpha);
  CHECK(alpha_at({0, 0, 0}, 0.3) == 0);
}

TEST_CASE("a gusset stiffens in its own plane: upright on a sheet rib, lying on a tube, as stated before all") {
  JointMake j;
  j.kind = JointKind::gusset, j.fasteners = 3;
  JoinedMember m = sheet_rib();
  CHECK(turn_of(j, m).up.usual > turn_of(j, m).flat.usual);
  m.shape.kind = SectionShape::Kind::tube;
  CHECK(turn_of(j, m).up.usual < turn_of(j, m).flat.usual);
  j.upright = true;
  CHECK(turn_of(j, m).up.usual > turn_of(j, m).flat.usual);
  m = sheet_rib();
  m.is_rib = false;
  j.upright = {};
  CHECK(turn_of(j, m).up.usual < turn_of(j, m).flat.usual);
}

TEST_CASE("springs stand where a rib meets the edges, by its own stiffness, and nowhere else") {
  const Case c = joined(JointKind::welded);
  const Model m(c, coarse(150));
  int springs = 0;
  for (std::size_t b = 0; b < m.beams.size(); ++b)
    springs += !std::isinf(m.beams[b].turn_from.up) + !std::isinf(m.beams[b].turn_to.up);
  CHECK(springs == 2 * static_cast<int>(c.ribs.size()));
  const FrameMember& rib = m.panel.members[c.span_members.size()];
  const double length =
      (m.panel.joints[rib.joints.back()].position - m.panel.joints[rib.joints.front()].position).norm();
  const BeamShape& first = m.beams[static_cast<std::size_t>(rib.beams.front())];
  CHECK(first.turn_from.flat == Approx(25 * first.youngs_modulus * first.section.inertia_flat / length));
}

TEST_CASE("rigid and unstated joints are one frame, pinned ones are the hinged frame of before") {
  const Model rigid(joined(JointKind::rigid), coarse(150)), open(joined(JointKind::unstated), coarse(150));
  for (std::size_t b = 0; b < rigid.beams.size(); ++b) CHECK(rigid.beam_elastic[b] == open.beam_elastic[b]);
  const Model pinned(joined(JointKind::pinned), coarse(150));
  for (std::size_t b = 0; b < pinned.beams.size(); ++b) {
    CHECK((pinned.beams[b].turn_from.up == 0) == pinned.panel.beams[b].hinge_from);
    CHECK((pinned.beams[b].turn_to.flat == 0) == pinned.panel.beams[b].hinge_to);
  }
}

TEST_CASE("the softer its joints the more a rib gives at the trailing edge") {
  const auto stiffness = [](JointKind kind) {
    const Model m(joined(kind), coarse(150));
    const FrameMember& rib = m.panel.members[m.the_case.span_members.size() + 1];
    return m.beam_elastic[static_cast<std::size_t>(rib.beams.back())](8, 8);
  };
  CHECK(stiffness(JointKind::tied) < stiffness(JointKind::glued_block));
  CHECK(stiffness(JointKind::glued_block) < stiffness(JointKind::welded));
  CHECK(stiffness(JointKind::welded) < stiffness(JointKind::rigid));
}

TEST_CASE("a rib in whose place a tip bow stands has no joints that vary") {
  Case c = joined(JointKind::rigid);
  c.ribs.back().front_joint.kind = JointKind::tied;
  CHECK(joints_that_vary(c).size() == 1);
  c.tip_bow = c.ribs.back().make;
  CHECK(joints_that_vary(c).empty());
}
