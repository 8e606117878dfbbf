// What the iron has to do, in words for the bench.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// "light, keep moving", "light, at 201 °F", "full": how a pass with this dose is had with this iron.
std::string pass_words(const Plan& plan, int stage, int pass, double dose);
/// "Stay 3.4 s on each spot (or draw the sole lengthwise at 2.3 in/s); over the nose 16 s."
std::string hold_words(const PassHeat& pass, const Iron& iron);
/// All passes of a stage named by number, alike ones together: "Pass 1 and 2: ... Pass 3: ..."
std::string dwell_words(const Plan& plan, int stage, const std::vector<int>& passes);
/// The same for every stage up to the hottest safe one.
std::string all_dwell_words(const Plan& plan);
/// How many passes it takes, what falls short, how light passes scatter: sentences by stage.
std::vector<std::string> heat_sentences(const Plan& plan);

}  // namespace evenpull::viz
