// A plan or a survey in words, for the terminal.
#pragma once

#include "app/text/terminal.hpp"
#include "sequencer/plan/plan.hpp"
#include "sequencer/sure/run_estimate.hpp"

#include <string>

namespace evenpull {

/// One screen: the answer, why, the order, worst readings, cautions, where the files are.
std::string plan_summary(const Plan& plan, const std::string& folder, const Terminal& terminal = {});

/// What was understood of a case.
std::string survey_text(const Case& c, const Panel& panel, const RunEstimate& estimate, const RunEstimate& fine,
                        const std::string& folder);

/// "a tube, 0.500 in x 0.035 in, 6061-T6 tube".
std::string print_make(const MemberMake& make, const Case& c);

/// Text broken at spaces to lines of at most `width` letters, each after the first indented.
std::string wrap_text(const std::string& text, int indent, size_t width = Terminal{}.width);

}  // namespace evenpull
