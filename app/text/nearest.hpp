// The nearest known word to a mistyped one, by edit distance.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace evenpull {

/// Letters to change, add or drop to get from a to b (Levenshtein).
int edit_distance(std::string_view a, std::string_view b);

/// The known word nearest to `word`, or "" when none is near enough to be a slip of the pen.
std::string nearest(std::string_view word, const std::vector<std::string>& known);

/// `"a", "b" or "c"` for messages.
std::string list_words(const std::vector<std::string>& words);

}  // namespace evenpull
