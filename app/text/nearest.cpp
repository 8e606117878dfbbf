#include "app/text/nearest.hpp"

#include "app/text/quoted.hpp"

#include <algorithm>
#include <numeric>

namespace evenpull {
namespace {

constexpr size_t most_listed = 24;  ///< words of a message: more are not read

}  // namespace

int edit_distance(std::string_view a, std::string_view b) {
  std::vector<int> row(b.size() + 1);
  std::iota(row.begin(), row.end(), 0);
  for (size_t i = 1; i <= a.size(); ++i) {
    int diagonal = row[0];
    row[0] = static_cast<int>(i);
    for (size_t j = 1; j <= b.size(); ++j) {
      const int above = row[j];
      row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)});
      diagonal = above;
    }
  }
  return row[b.size()];
}

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  std::string best;
  int least = 0;
  for (const auto& candidate : known) {
    const int distance = edit_distance(word, candidate);
    if (best.empty() || distance < least) {
      best = candidate;
      least = distance;
    }
  }
  // More than half the letters wrong is another word, not a slip.
  const auto longest = static_cast<int>(std::max(word.size(), best.size()));
  return 2 * least <= longest ? best : std::string{};
}

std::string list_words(const std::vector<std::string>& words) {
  std::string out;
  const size_t shown = words.size() > most_listed ? most_listed - 1 : words.size();
  for (size_t i = 0; i < shown; ++i) {
    if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
    out += in_quotes(words[i]);
  }
  return shown < words.size() ? out + " or " + std::to_string(words.size() - shown) + " more" : out;
}

}  // namespace evenpull
