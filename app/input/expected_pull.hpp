// What was expected of the pull after a stage: the stage that was named, and what a plan.json says of it.
#pragma once

#include "solver/statement/case.hpp"

#include <array>
#include <optional>
#include <string>

namespace evenpull {

/// Index of the stage that `text` names by its temperature; none where it is empty. Throws CaseFileError ("--stage").
std::optional<int> expected_stage(const std::string& text, const Case& c);

/// sqrt(chordwise x spanwise) of the mean pulls [N/m] that a plan.json expects at that stage, by side. Throws
/// CaseFileError for what is no plan.json of this program, or of a panel without that stage.
std::array<double, 2> planned_pulls(const std::string& path, const Case& c, int stage);

}  // namespace evenpull
