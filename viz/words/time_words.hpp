// How long the job takes, in words.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>

namespace evenpull::viz {

/// "1 h 20 min", "25 min", "40 s": rounded as a clock is read.
std::string duration_text(double seconds);

/// The whole job and its stages; empty without steps to do.
std::string time_sentence(const Plan& plan);

}  // namespace evenpull::viz
