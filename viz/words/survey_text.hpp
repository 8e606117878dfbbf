// What was understood of a case, in words, for the terminal.
#pragma once

#include "sequencer/sure/run_estimate.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <string>

namespace evenpull {

std::string survey_text(const Case& c, const Panel& panel, const RunEstimate& estimate, const RunEstimate& fine,
                        int processors, const std::string& folder);

/// "tube 1/2 in (12.7 mm) x 0.035 in (0.89 mm), 6061-T6 tube": sizes as they were written.
std::string print_make(const MemberMake& make, const Case& c);

}  // namespace evenpull
