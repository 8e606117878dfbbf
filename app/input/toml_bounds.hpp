// A quick look over a TOML text before it is parsed: nothing in it may be larger than a case or an order can mean, since
// a parser takes what is large as well, and a long time and much memory with it.
#pragma once

#include <cstddef>
#include <string>

namespace evenpull {

/// Throws CaseFileError with line, key and what is allowed, for strings, keys, nesting and counts beyond app/text/most.hpp;
/// `most_values` is how many keys and list entries there may be in all.
void check_bounds(const std::string& text, const std::string& file, std::size_t most_values);

}  // namespace evenpull
