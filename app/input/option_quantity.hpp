// A quantity typed at an option of the command line.
#pragma once

#include "app/input/case_table.hpp"

#include <string>

namespace evenpull {

/// SI. Throws CaseFileError that names option, text and what would be right.
double option_quantity(const std::string& option, const std::string& text, Quantity kind, const Range& range);

}  // namespace evenpull
