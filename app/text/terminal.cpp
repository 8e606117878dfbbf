#include "app/text/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <cstring>

namespace evenpull {

Terminal terminal_of(bool is_terminal, int columns, const char* no_color, const char* term) {
  Terminal t;
  if (!is_terminal) return t;
  // Narrower than this no sentence is worth wrapping; wider than usual is hard to read.
  constexpr int narrowest = 40;
  if (columns > 0) t.width = std::min(t.width, static_cast<std::size_t>(std::max(columns, narrowest)));
  t.bold = !(no_color && *no_color) && term && *term && std::strcmp(term, "dumb") != 0;
  return t;
}

Terminal this_terminal() {
  winsize size{};
  const bool is = isatty(STDOUT_FILENO) == 1;
  const int columns = is && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 ? size.ws_col : 0;
  return terminal_of(is, columns, std::getenv("NO_COLOR"), std::getenv("TERM"));
}

}  // namespace evenpull
