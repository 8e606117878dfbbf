// Pictures for a screen or a report (PNG): the pull after each stage, how hard the frame works, how it would buckle,
// and how far the cloth sags between ribs.
#pragma once

#include "sequencer/plan.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// Writes, for each stage computed, pull_<stage>_largest.png (larger principal pull with its direction) and
/// pull_<stage>_chord_and_span.png, all to one scale; for each stage
/// to be ironed order_<stage>.png (the way over both skins) and, where there is something to trade, turn_overs.png; then of
/// the hottest safe stage (of the first if none is safe)
/// frame_use.png, frame_buckling.png (if it would buckle at all) and sag_between_ribs.png. `directory` must exist.
/// Gives the names of the files in it, in that order. Throws std::runtime_error that names the file when it cannot be
/// written.
std::vector<std::string> write_pictures(const Plan& plan, const std::string& directory);

}  // namespace evenpull
