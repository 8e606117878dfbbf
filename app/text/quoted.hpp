// What a user typed, as a message may show it: on one line, cut, and without anything that a terminal would obey or an
// eye would miss.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace evenpull {

/// Letters of a value and of a file name that a message shows; what is longer is cut.
constexpr std::size_t most_shown = 60, most_shown_of_file = 200;

/// One character from `at` on. `code` is -1 where the bytes are no UTF-8; then `bytes` is 1.
struct Rune {
  long code = -1;
  std::size_t bytes = 1;
};
Rune rune_at(std::string_view text, std::size_t at);

/// Control characters, and what looks like a space or like nothing: no-break spaces, marks of writing direction, ...
bool is_hidden(long code);

/// Hidden characters and broken bytes as \n, \x1b, \u00a0; after `most` characters a "…".
std::string escaped(std::string_view text, std::size_t most = most_shown);

/// The same in quotes, with " and \ as a TOML string has them.
std::string in_quotes(std::string_view text, std::size_t most = most_shown);

/// The name of a file, cut at its beginning; "standard input" for "-".
std::string shown_file(std::string_view path);

/// A sentence of ours that may hold what a user typed: hidden characters escaped, nothing cut.
std::string on_one_line(std::string_view sentence);

}  // namespace evenpull
