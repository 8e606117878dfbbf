// attach.json, and the schedule as it stands in plan.json and survey.json.
#pragma once

#include "app/output/json_number.hpp"
#include "shop/attach_study.hpp"
#include "solver/statement/case.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// One entry for each of Case::attachments.
Json attachments_json(const Case& c);

std::string attach_document(const Case& c, const std::vector<AttachRun>& runs, const std::vector<std::string>& in_words,
                            const std::string& version);

}  // namespace evenpull
