// A plan in words, for the terminal.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "viz/words/terminal_text.hpp"

#include <string>

namespace evenpull {

/// One screen: the answer, why, the order, worst readings, cautions, where the files are.
std::string plan_summary(const Plan& plan, const std::string& folder, const Terminal& terminal = {});

}  // namespace evenpull
