// Where the heat of welding has weakened the frame: ends of beams near a welded joint (docs/model.md, section 7).
#pragma once

#include "solver/geometry/frame_joints.hpp"

namespace evenpull::inline solver {

/// Tube to tube, or a thin tube to the wall of a wide one.
inline bool is_welded(JointKind k) { return k == JointKind::welded || k == JointKind::welded_thin; }

/// Sets weld_from and weld_to of the beams of all members that meet at a welded joint, where the end of the beam lies no
/// further from it along the member than Material::weld_reach. A rib whose joints at both edges are welded counts as
/// welded to the spars that it crosses too: nobody states those, and careful is to take them so.
void mark_welds(const Case& c, const FrameJoints& joints, Panel& p);

}  // namespace evenpull::inline solver
