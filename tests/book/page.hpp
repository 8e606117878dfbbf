// The pages of the book: docs/verification.md and its pictures.
#pragma once

#include "tests/book/record.hpp"

#include <map>
#include <string>

namespace evenpull::book {

/// Text of each file by its path below docs/.
using Pages = std::map<std::string, std::string>;

/// `records` as sorted by sort_records. `windows`: how panels drawn independently bore out the windows of plans, which takes
/// too long for every run (bench/window_report.cpp writes it); empty: left out.
Pages make_pages(const std::vector<Record>& records, const std::string& windows = "");

}  // namespace evenpull::book
