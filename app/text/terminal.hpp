// What the terminal can show: how wide it is, and whether bold type is welcome.
#pragma once

#include <cstddef>
#include <string>

namespace evenpull {

struct Terminal {
  std::size_t width = 100;  ///< letters a line
  bool bold = false;        ///< escape sequences may be printed
};

/// `columns`: 0 when unknown. A file or pipe gets plain text of the usual width; NO_COLOR (no-color.org: set and not empty)
/// and a dumb TERM turn escape sequences off.
Terminal terminal_of(bool is_terminal, int columns, const char* no_color, const char* term);
/// Of standard output.
Terminal this_terminal();

/// The words in bold type, where that is welcome.
std::string bold(const Terminal& terminal, const std::string& words);

}  // namespace evenpull
