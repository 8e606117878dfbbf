// What a job needs of its plan, read from the folder that `evenpull plan` wrote.
#pragma once

#include "shop/job_standing.hpp"

#include <string>

namespace evenpull {

/// From plan.json in a folder. Throws CaseFileError where there is none, where it is damaged, or where it is of another format;
/// `c` gives the lengths over which bows and twist are read.
PlanDigest read_plan_folder(const std::string& folder, const Case& c);
/// The file that is meant: plan.json itself, or that in a folder.
std::string plan_file_in(const std::string& from);
/// Its text. Throws CaseFileError where there is none.
std::string read_plan_text(const std::string& from);
/// From the text of such a file; `path` for messages.
PlanDigest plan_digest_of(const std::string& text, const std::string& path, const Case& c);

}  // namespace evenpull
