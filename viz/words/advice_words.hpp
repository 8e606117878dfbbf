// Why the answer is what it is, and what to do, in sentences.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// One or a few plain sentences: why this stage.
std::string because_text(const Plan& plan);
/// What to do, most pressing first.
std::vector<std::string> advice_sentences(const Plan& plan);

}  // namespace evenpull::viz
