// What a plan says of its own making, in sentences.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

std::string note_text(const Plan& plan, const Note& note);
std::vector<std::string> note_sentences(const Plan& plan);

/// A run made for a plan: "coarse mesh: jumping, sides alternating", "passes at 250 °F (121 °C) with doses 0.25, 1".
std::string run_text(const Case& c, const RunId& run);
/// "inner ribs free", "inner ribs glued".
const char* bound_name(RibTie inner_ribs);
const char* bound_name(JointEnd joints);
const char* bound_name(const BoundRun& run);

}  // namespace evenpull::viz
