// What scenarios came to as logarithms, for fits to the numbers that draw a scenario.
#pragma once

#include "sequencer/sure/outturn.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// Uses and pulls below are as good as it.
inline constexpr double next_to_nothing = 1e-3;
/// Runs that a fit needs beyond its columns.
inline constexpr int least_beyond = 10;

/// The numbers that drew a scenario, `count` of them, each within most_sigmas.
std::vector<double> fit_columns(const Outturn& o, int count);

/// Log of a use times `share`. A frame that gave way, or of which nothing is known, counts as half over (judgement).
double log_of_use(const Outturn& o, const std::vector<CorrectionByLimit>& read, int stage, Limit limit, double share);

}  // namespace evenpull::inline sequencer
