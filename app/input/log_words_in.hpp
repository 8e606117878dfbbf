// What a person types of zones worked and things read, in the terms of a log.
#pragma once

#include "app/text/units.hpp"
#include "shop/job_standing.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// "next", "next 5", "run", "stage", "T3 T4", "top", "bay 3", each with "300 degF:" or "300 degF, pass 2:" in front where it was not
/// the next one. `option` names it in messages. Throws CaseFileError.
std::vector<OrderStep> worked_steps_of(const std::string& text, const std::string& option, const PlanDigest& plan,
                                       const WorkSoFar& work, const Case& c);

/// "top, bay 2: 500 g = 3.4 mm", "twist = 2 mm", "250 degF: twist = 2 mm". Without a stage it is of the one done last.
LogEntry reading_entry_of(const std::string& text, const std::string& option, const PlanDigest& plan,
                          const WorkSoFar& work, const Case& c);

}  // namespace evenpull
