// Keys that a person is likely to write for something that a case cannot state, and what to state instead.
#pragma once

#include <string>

namespace evenpull {

/// What to do instead of `key` in the table at `path` ("ribs", "brace[2].from", ""): a whole clause. Empty: nothing is known of
/// such a key.
std::string instead_of(const std::string& path, const std::string& key);

}  // namespace evenpull
