// Pictures for a screen or a report (PNG and SVG): the pull after each stage, how hard the frame works, how it would buckle,
// how far the cloth sags between ribs, and a moving one of the whole order.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// Writes, for each stage computed, pull_<stage>_largest.png (larger principal pull with its direction) and
/// pull_<stage>_chord_and_span.png, all to one scale; for each stage to be ironed order_<stage>.png (the way over both
/// skins) and, where there is something to trade, turn_overs.png; then of the hottest safe stage (of the first if none is
/// safe) frame_use.png, frame_buckling.png (if it would buckle at all) and sag_between_ribs.png, and of all steps the moving
/// step_by_step.png (an animated PNG). Those of the pull and frame_use come as .svg too. `directory` must exist.
/// Gives the names of the files in it, in that order. Throws CannotWriteFile that names the file when it cannot be
/// written.
std::vector<std::string> write_pictures(const Plan& plan, const std::string& directory);

}  // namespace evenpull
