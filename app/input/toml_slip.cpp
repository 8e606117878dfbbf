#include "app/input/toml_slip.hpp"

#include "app/input/typed.hpp"
#include "app/text/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <regex>
#include <vector>

namespace evenpull {
namespace {

constexpr std::size_t most_of_a_line = 200;  ///< beyond it no line of a case is looked at
constexpr long no_break_space = 0xa0;

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out(1);
  for (const char c : text)
    if (c == '\n') out.emplace_back();
    else if (c != '\r' && out.back().size() < most_of_a_line) out.back() += c;
  return out;
}

/// The typographic quotes of the trade's languages: “ ” „ ‟ ‘ ’ ‚ « ».
bool is_curly(long code) { return (code >= 0x2018 && code <= 0x201f) || code == 0xab || code == 0xbb; }

/// What stands outside straight quotes and before a comment.
std::vector<long> bare_characters(const std::string& line) {
  std::vector<long> out;
  char inside = 0;
  for (std::size_t at = 0; at < line.size();) {
    const Rune r = rune_at(line, at);
    if (inside ? r.code == inside : r.code == '"' || r.code == '\'') inside = inside ? 0 : static_cast<char>(r.code);
    else if (!inside && r.code == '#') break;
    else if (!inside) out.push_back(r.code);
    at += r.bytes;
  }
  return out;
}

std::string utf8(long code) {
  // Only characters of two and three bytes come here.
  if (code < 0x800) return {static_cast<char>(0xc0 | (code >> 6)), static_cast<char>(0x80 | (code & 0x3f))};
  return {static_cast<char>(0xe0 | (code >> 12)), static_cast<char>(0x80 | ((code >> 6) & 0x3f)),
          static_cast<char>(0x80 | (code & 0x3f))};
}

std::string with_straight_quotes(std::string line) {
  for (long code : {0x2018L, 0x2019L, 0x201aL, 0x201bL, 0x201cL, 0x201dL, 0x201eL, 0x201fL, 0xabL, 0xbbL})
    for (auto at = line.find(utf8(code)); at != std::string::npos; at = line.find(utf8(code)))
      line.replace(at, utf8(code).size(), "\"");
  return line;
}

std::string about_characters(const std::string& line) {
  for (const long code : bare_characters(line)) {
    if (is_curly(code))
      return fmt::format("the quote {} is typographic; write straight quotes: {}", utf8(code),
                         escaped(trimmed(with_straight_quotes(line))));
    if (code == no_break_space || code == 0x202f)
      return "a no-break space stands here, which looks like a space and is none; delete it and type a plain one";
    if (code > 0x7f && is_hidden(code))
      return fmt::format("the invisible character {} stands here; delete it", escaped(utf8(code)));
  }
  return "";
}

/// "[outline]" or "span" a second time.
std::string about_second(const std::vector<std::string>& lines, FilePlace place, std::string_view description) {
  if (description.find("redefine") == std::string_view::npos) return "";
  const auto line = trimmed(lines[static_cast<std::size_t>(place.line - 1)]);
  const bool table = line[0] == '[';
  const auto name = table ? line.substr(0, line.find_last_of(']') + 1) : trimmed(line.substr(0, line.find('=')));
  int first = 0;
  for (int i = place.line - 1; i > 0 && first == 0; --i) {
    const auto other = trimmed(lines[static_cast<std::size_t>(i - 1)]);
    if (!table && !other.empty() && other[0] == '[') break;  // a key counts within its table alone
    const bool same = other.compare(0, name.size(), name) == 0;
    if (same && (table || trimmed(other.substr(name.size()))[0] == '=')) first = i;
  }
  const auto before = first > 0 ? fmt::format("; the first is on line {}", first) : std::string();
  if (!table) return fmt::format("{} stands here a second time{}; keep one of the two", escaped(name), before);
  return fmt::format(
      "{} stands here a second time{}; put its keys together under one. What may be there several times has "
      "double brackets: [[member]], [[stage]]",
      escaped(name), before);
}

/// A value without its quotes: 1800 mm; 0,035.
std::string about_value(const std::string& line) {
  static const std::regex comma(R"(^\s*([A-Za-z_]+)\s*=\s*([+-]?\d+),(\d+)\s*(.*?)\s*(#.*)?$)");
  static const std::regex bare(R"(^\s*([A-Za-z_]+)\s*=\s*([^"'#\[\]{},]+?)\s*(#.*)?$)");
  std::smatch m;
  if (std::regex_match(line, m, comma))
    return m[4].length() > 0
               ? fmt::format("a decimal comma is not read; write {} = \"{}.{} {}\"", m[1].str(), m[2].str(), m[3].str(),
                             escaped(m[4].str()))
               : fmt::format("a decimal comma is not read; write {} = {}.{}, a quantity in quotes and with its unit",
                             m[1].str(), m[2].str(), m[3].str());
  static const std::regex nothing(R"(^\s*([A-Za-z_]+)\s*=\s*(#.*)?$)");
  if (std::regex_match(line, m, nothing))
    return fmt::format("{} has no value; write one behind the =, or take the line out", m[1].str());
  if (std::regex_match(line, m, bare) && m[2].str() != "true" && m[2].str() != "false")
    return fmt::format("text and quantities stand in quotes; write {} = {}", m[1].str(), in_quotes(m[2].str()));
  static const std::regex colon(R"(^\s*([A-Za-z_]+)\s*:\s*(.*?)\s*$)");
  if (std::regex_match(line, m, colon))
    return fmt::format("between a key and its value stands =, not a colon: {} = {}", m[1].str(), escaped(m[2].str()));
  return "";
}

/// A quote or a bracket that has no end.
std::string about_ends(const std::string& line, std::string_view description) {
  const auto says = [&](const char* words) { return description.find(words) != std::string_view::npos; };
  if (says("parsing string") && std::count(line.begin(), line.end(), '"') % 2 == 1)
    return "the text in quotes on this line has no quote at its end; add one";
  if (says("closing ']'"))
    return "in the list that is open here a comma or the closing ] is missing, here or on the line above";
  return "";
}

}  // namespace

std::string words_for_slip(const std::string& text, FilePlace place, std::string_view description) {
  auto lines = lines_of(text);
  const auto last = static_cast<int>(lines.size());
  place.line = std::clamp(place.line, 1, last);
  const auto& line = lines[static_cast<std::size_t>(place.line - 1)];
  for (const auto& words : {about_characters(line), about_second(lines, place, description),
                            about_ends(line, description), about_value(line)})
    if (!words.empty()) return words;
  return fmt::format("the file is not valid TOML here: {}; text stands in quotes (span = \"1800 mm\")",
                     escaped(description, most_of_a_line));
}

}  // namespace evenpull
