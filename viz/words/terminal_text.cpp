#include "viz/words/terminal_text.hpp"

#include <algorithm>
#include <sstream>

namespace evenpull {

std::size_t letters(const std::string& s) {
  return static_cast<size_t>(
      std::count_if(s.begin(), s.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string wrap_text(const std::string& text, int indent, size_t width) {
  // What moves a terminal's cursor is no word.
  std::string plain = text;
  std::replace_if(
      plain.begin(), plain.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; }, ' ');
  std::istringstream words(plain);
  std::string word, out;
  size_t column = static_cast<size_t>(indent);
  while (words >> word) {
    const auto size = letters(word);
    if (!out.empty() && column + 1 + size > width) {
      out += "\n" + std::string(static_cast<size_t>(indent), ' ');
      column = static_cast<size_t>(indent);
    } else if (!out.empty()) {
      out += ' ';
      ++column;
    }
    out += word;
    column += size;
  }
  return out;
}

std::string in_bold(const Terminal& terminal, const std::string& words) {
  return terminal.bold ? "\x1b[1m" + words + "\x1b[0m" : words;
}

}  // namespace evenpull
