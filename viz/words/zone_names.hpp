// Zones in a sentence, and cloth that stays loose.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// "all of the cloth", "all of the top, B3 and B4", "T7"; zones rising.
std::string zones_text(const Panel& p, const std::vector<int>& zones);
/// "T7 B3 T4", of many the first ten and how many more there are.
std::string zone_list(const Panel& p, const std::vector<int>& zones);

/// "The cloth does not come tight"; empty where it does. Said before all else, in the largest letters.
std::string loose_headline(const Plan& plan);
/// "Loose cloth after 250 °F (121 °C): all of the top and B3 with next to no pull."; empty where none is.
std::string loose_sentence(const Plan& plan);

}  // namespace evenpull::viz
