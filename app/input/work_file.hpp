// Work half done, as a plan goes on from it: an order file with steps marked done, or the log of the job.
#pragma once

#include "app/input/log_lines.hpp"
#include "app/input/order_file.hpp"

#include <string>

namespace evenpull {

/// Reads either. With a log the case takes the stages as they were worked (case_as_worked). Throws CaseFileError, also where the log
/// says that nothing may be planned yet.
OrderFile read_work_file(const std::string& path, Case& c);

/// Of a log that was read: all its steps are done. Readings amid a stage are left out.
OrderFile order_of_log(const LogRead& read, const std::string& path, Case& c);

}  // namespace evenpull
