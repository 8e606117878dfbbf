// Joints of ribs and braces in words: as they are stated, and what they let turn.
#pragma once

#include "solver/frame/joint_turn.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <array>
#include <string>

namespace evenpull::viz {

/// What a case may state, in the order in which it is offered.
inline constexpr std::array stated_joints{
    JointKind::rigid,  JointKind::pinned,       JointKind::welded,      JointKind::welded_thin, JointKind::gusset,
    JointKind::single, JointKind::glued_gusset, JointKind::glued_block, JointKind::tied,        JointKind::slid_in};

/// "riveted gusset": the word of the case file. Of unstated joints "not stated".
const char* joint_word(JointKind k);

/// "riveted gusset, 3 rivets 2.4 mm, 20 mm from first to last"
std::string joint_text(const JointMake& j);

/// "up and down 4 (1.5 to 15), flat 0 (0 to 0.1)": stiffness against turning as a multiple of the member's own E I/L.
/// Empty for rigid and pinned joints.
std::string turn_text(const JointMake& j, const JoinedMember& m);

/// One joint of the frame, or several that are alike.
struct JointLine {
  std::string where;  ///< "ribs 1 to 6, leading edge", "diagonal"
  std::string made;   ///< joint_text
  std::string turns;  ///< turn_text
};

/// All joints of ribs and braces of a case, like neighbours in one line. Those of a tip bow are rigid and left out.
std::vector<JointLine> joint_lines(const Case& c, const Panel& p);

}  // namespace evenpull::viz
