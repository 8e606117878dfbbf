// What of the frame is stated as a range: how far its joints turn and its supports give (docs/model.md, sections 5 and 9).
#pragma once

#include "sequencer/plan/run_id.hpp"
#include "solver/statement/case.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// Numbers that draw what of the frame has a range: one for each kind of joint, one for all supports that give.
int numbers_of_frame(const Case& c);

bool any_joint_unstated(const Case& c);

/// Whether there are any.
bool frame_varies(const Case& c);

/// Whether the worse end of the range counts against a stage by itself: where any of it was stated. Joints that nobody
/// stated are computed rigid and count in the chances alone.
bool range_counts(const Case& c);

/// Draws what of the frame has a range, by numbers_of_frame(c) numbers in sigmas: joints evenly by ratio over the range of
/// their kind (bending up by what weights told, where they did), what supports give times exp(spread x sigma).
void draw_frame(Case& c, const double* sigmas);

/// All of it at one end of the range; of what supports give two sigma off.
Case with_joints_at(const Case& c, JointEnd end);

}  // namespace evenpull::inline sequencer
