// What the page of a plan saved: ticks and readings, on their way into the log.
#pragma once

#include "shop/job_standing.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// Entries for what the log does not have yet: zones ticked, a pass an entry; then readings. Throws CaseFileError where it is no
/// such file or names what the plan does not have.
std::vector<LogEntry> entries_of_page(const std::string& path, const PlanDigest& plan, const WorkSoFar& work);

}  // namespace evenpull
