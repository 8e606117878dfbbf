#include "solver/geometry/welds.hpp"

#include <set>

namespace evenpull::inline solver {
namespace {

std::set<int> welded_joints(const Case& c, const FrameJoints& joints, const Panel& p) {
  std::set<int> at;
  const auto all_round = [&](int rib) {
    const Rib& r = c.ribs[static_cast<std::size_t>(rib)];
    return is_welded(r.front_joint.kind) && is_welded(r.rear_joint.kind);
  };
  // What stands between both ends of a rib that is welded at both is welded too.
  for (const PanelPocket& pocket : p.pockets)
    for (const int rib : {pocket.from_rib, pocket.to_rib})
      if (all_round(rib)) at.insert(joints.of_rib(rib, pocket.chord_fraction));
  for (std::size_t r = 0; r < c.ribs.size() && r < joints.rib.size(); ++r) {
    const bool front = is_welded(c.ribs[r].front_joint.kind), rear = is_welded(c.ribs[r].rear_joint.kind);
    if (front) at.insert(joints.rib[r].front());
    if (rear) at.insert(joints.rib[r].back());
    for (const SpanMember& m : c.span_members)
      if (const int joint = front && rear ? joints.of_rib(static_cast<int>(r), m.chord_fraction) : -1; joint >= 0)
        at.insert(joint);
  }
  at.erase(-1);
  return at;
}

}  // namespace

void mark_welds(const Case& c, const FrameJoints& joints, Panel& p) {
  std::set<int> welds = welded_joints(c, joints, p);
  std::size_t brace = 0;
  for (const FrameMember& m : p.members) {
    if (m.role != MemberRole::brace || brace >= c.braces.size()) continue;
    const Brace& b = c.braces[brace++];
    if (is_welded(b.from_joint.kind)) welds.insert(m.joints.front());
    if (is_welded(b.to_joint.kind)) welds.insert(m.joints.back());
  }
  if (welds.empty()) return;
  for (const FrameMember& m : p.members) {
    if (m.role == MemberRole::batten) continue;  // clamped beside, not welded
    const double reach = c.materials[static_cast<std::size_t>(m.material)].weld_reach;
    for (const int weld : m.joints) {
      if (!welds.count(weld)) continue;
      const auto near = [&](int joint) {
        return joint == weld || (p.joints[joint].position - p.joints[weld].position).norm() <= reach;
      };
      for (const int b : m.beams) {
        Beam& beam = p.beams[b];
        beam.weld_from = beam.weld_from || near(beam.from);
        beam.weld_to = beam.weld_to || near(beam.to);
      }
    }
  }
}

}  // namespace evenpull::inline solver
