// What this terminal can show.
#pragma once

#include "viz/words/terminal_text.hpp"

namespace evenpull {

/// `columns`: 0 when unknown. A file or pipe gets plain text of the usual width; NO_COLOR (no-color.org: set and not empty)
/// and a dumb TERM turn escape sequences off.
Terminal terminal_of(bool is_terminal, int columns, const char* no_color, const char* term);
/// Of standard output.
Terminal this_terminal();

}  // namespace evenpull
