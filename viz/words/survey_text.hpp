// What was understood of a case, in words, for the terminal.
#pragma once

#include "sequencer/sure/run_estimate.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <string>

namespace evenpull {

std::string survey_text(const Case& c, const Panel& panel, const RunEstimate& estimate, const RunEstimate& fine,
                        int processors, const std::string& folder);

}  // namespace evenpull
