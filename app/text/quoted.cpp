#include "app/text/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <vector>

namespace evenpull {
namespace {

constexpr const char* cut_mark = "…";

struct Span {
  long first, last;
};
/// The Unicode Standard's categories Cc, Zs without the plain space, Zl, Zp, and the format characters (Cf) that occur
/// in text that was copied out of a document.
constexpr std::array<Span, 14> hidden{{{0x00, 0x1f},
                                       {0x7f, 0xa0},
                                       {0xad, 0xad},
                                       {0x61c, 0x61c},
                                       {0x1680, 0x1680},
                                       {0x180e, 0x180e},
                                       {0x2000, 0x200f},
                                       {0x2028, 0x202f},
                                       {0x205f, 0x206f},
                                       {0x3000, 0x3000},
                                       {0xfeff, 0xfeff},
                                       {0xfff9, 0xfffb},
                                       {0xe0000, 0xe007f},
                                       {0x110000, std::numeric_limits<long>::max()}}};

std::string escape_of(long code) {
  if (code == '\n') return "\\n";
  if (code == '\t') return "\\t";
  if (code == '\r') return "\\r";
  return code < 0x80 ? fmt::format("\\x{:02x}", code) : fmt::format("\\u{:04x}", code);
}

/// Pieces to show, one a character.
std::vector<std::string> pieces(std::string_view text, std::size_t most, bool as_value) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < text.size() && out.size() <= most;) {
    const Rune r = rune_at(text, at);
    if (r.code < 0) out.push_back(fmt::format("\\x{:02x}", static_cast<unsigned char>(text[at])));
    else if (is_hidden(r.code)) out.push_back(escape_of(r.code));
    else
      out.push_back((as_value && (r.code == '"' || r.code == '\\') ? "\\" : "") +
                    std::string(text.substr(at, r.bytes)));
    at += r.bytes;
  }
  return out;
}

std::string join_cut(const std::vector<std::string>& pieces, std::size_t most) {
  std::string out;
  for (std::size_t i = 0; i < std::min(most, pieces.size()); ++i) out += pieces[i];
  return pieces.size() > most ? out + cut_mark : out;
}

}  // namespace

Rune rune_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) -> long { return i < text.size() ? static_cast<unsigned char>(text[i]) : -1; };
  const long first = byte(at);
  if (first < 0x80) return {first, 1};
  const std::size_t length = first >= 0xf0 && first < 0xf5   ? 4
                             : first >= 0xe0 && first < 0xf0 ? 3
                             : first >= 0xc2 && first < 0xe0 ? 2
                                                             : 0;
  if (length == 0) return {};
  long code = first & (0x7f >> length);
  for (std::size_t i = 1; i < length; ++i) {
    const long next = byte(at + i);
    if (next < 0x80 || next > 0xbf) return {};
    code = (code << 6) | (next & 0x3f);
  }
  // Longer than need be, half of a UTF-16 pair, or beyond the last character there is.
  const bool bad = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000) ||
                   (code >= 0xd800 && code <= 0xdfff) || code > 0x10ffff;
  return bad ? Rune{} : Rune{code, length};
}

bool is_hidden(long code) {
  return std::any_of(hidden.begin(), hidden.end(), [&](const Span& s) { return code >= s.first && code <= s.last; });
}

std::string escaped(std::string_view text, std::size_t most) { return join_cut(pieces(text, most, false), most); }

std::string in_quotes(std::string_view text, std::size_t most) {
  return '"' + join_cut(pieces(text, most, true), most) + '"';
}

std::string shown_file(std::string_view path) {
  if (path == "-") return "standard input";
  const auto all = pieces(path, path.size(), false);
  if (all.size() <= most_shown_of_file) return join_cut(all, all.size());
  // The end of a path says more than its beginning.
  return cut_mark + join_cut({all.end() - static_cast<long>(most_shown_of_file), all.end()}, most_shown_of_file);
}

std::string on_one_line(std::string_view sentence) { return escaped(sentence, sentence.size()); }

}  // namespace evenpull
