// The pages of the book: docs/verification.md and its pictures.
#pragma once

#include "tests/book/record.hpp"

#include <map>

namespace evenpull::book {

/// Text of each file by its path below docs/.
using Pages = std::map<std::string, std::string>;

/// `records` as sorted by sort_records.
Pages make_pages(const std::vector<Record>& records);

}  // namespace evenpull::book
