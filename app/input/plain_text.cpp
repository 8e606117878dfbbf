#include "app/input/plain_text.hpp"

#include "app/input/document.hpp"
#include "app/text/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace evenpull {
namespace {

using namespace std::string_view_literals;

constexpr const char* as_text = "save the case as plain text (UTF-8), for example with a simple text editor";

struct Beginning {
  std::string_view bytes;
  const char* what;
};
/// How files begin that people take for text. PDF: ISO 32000-1, 7.5.2; zip: local file header of its open description;
/// UTF-16: the byte order mark of the Unicode Standard, 2.6; the others from memory.
constexpr std::array<Beginning, 8> beginnings{
    {{"{\\rtf"sv, "rich text (RTF), as a word processor saves it"},
     {"PK\x03\x04"sv, "a zipped file, as word processors and spreadsheets save them"},
     {"%PDF-"sv, "a PDF, made for printing"},
     {"\xd0\xcf\x11\xe0"sv, "a document of an old word processor or spreadsheet"},
     {"\x1f\x8b"sv, "a compressed file (gzip)"},
     {"\xff\xfe"sv, "text in UTF-16"},
     {"\xfe\xff"sv, "text in UTF-16"},
     {"<"sv, "a page or a drawing (HTML, XML)"}}};

bool begins(std::string_view text, std::string_view with) { return text.substr(0, with.size()) == with; }

/// UTF-16 without a mark has a zero beside every letter of English.
bool every_other_is_zero(std::string_view text) {
  const auto part = text.substr(0, 64);
  const auto zeros = std::count(part.begin(), part.end(), '\0');
  return part.size() >= 4 && 3 * zeros >= static_cast<long>(part.size());
}

FilePlace place_of(std::string_view text, std::size_t at) {
  const auto before = text.substr(0, at);
  const auto line_start = before.rfind('\n');
  return {1 + static_cast<int>(std::count(before.begin(), before.end(), '\n')),
          static_cast<int>(line_start == std::string_view::npos ? at + 1 : at - line_start)};
}

/// The letters for which a byte stands in Latin-1 that occur in a case.
std::string meant(unsigned char byte) {
  switch (byte) {
    case 0xb0: return "° in Latin-1";
    case 0xb2: return "² in Latin-1";
    case 0xb5: return "µ in Latin-1";
    case 0xa0: return "a no-break space in Latin-1";
    default: return "a letter in Latin-1 or a like code";
  }
}

}  // namespace

std::string plain_text(std::string bytes, const std::string& file) {
  const FilePlace top{1, 1};
  if (begins(bytes, "\xef\xbb\xbf")) bytes.erase(0, 3);
  for (const auto& b : beginnings)
    if (begins(bytes, b.bytes)) throw CaseFileError(file, top, "", fmt::format("this is {}; {}", b.what, as_text));
  if (every_other_is_zero(bytes))
    throw CaseFileError(file, top, "", fmt::format("this is text in UTF-16; {}", as_text));
  if (bytes.find_first_not_of(" \t\r\n") == std::string::npos)
    throw CaseFileError(file, top, "", "the file is empty; start a new case with `evenpull template > my-case.toml`");
  for (std::size_t at = 0; at < bytes.size();) {
    const Rune r = rune_at(bytes, at);
    const auto byte = static_cast<unsigned char>(bytes[at]);
    if (r.code < 0)
      throw CaseFileError(file, place_of(bytes, at), "",
                          fmt::format("the byte \\x{:02x} is no UTF-8; it is {}: {}", byte, meant(byte), as_text));
    if (r.code < 0x20 && r.code != '\n' && r.code != '\t' && r.code != '\r')
      throw CaseFileError(
          file, place_of(bytes, at), "",
          fmt::format("the control character \\x{:02x} stands here, which no text has; {}", byte, as_text));
    at += r.bytes;
  }
  return bytes;
}

}  // namespace evenpull
