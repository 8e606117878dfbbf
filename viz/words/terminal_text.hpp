// Text laid out for a terminal.
#pragma once

#include <cstddef>
#include <string>

namespace evenpull {

struct Terminal {
  std::size_t width = 100;  ///< letters a line
  bool bold = false;        ///< escape sequences may be printed
};

/// Letters, not bytes: the degree sign and its like take two.
std::size_t letters(const std::string& s);

/// Text broken at spaces to lines of at most `width` letters, each after the first indented.
std::string wrap_text(const std::string& text, int indent, std::size_t width = Terminal{}.width);

/// The words in bold type, where that is welcome.
std::string in_bold(const Terminal& terminal, const std::string& words);

}  // namespace evenpull
