#include "app/text/quantity_slips.hpp"

#include "app/text/quoted.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <array>
#include <regex>

namespace evenpull {
namespace {

struct Mark {
  long code;
  const char* name;
  const char* plain;
};
/// Typographic letters and what is typed for them.
constexpr std::array<Mark, 20> marks{{{0x2033, "typographic inch mark ″", " in"},
                                      {0x201d, "typographic inch mark ”", " in"},
                                      {0x201c, "typographic inch mark “", " in"},
                                      {0x2032, "typographic foot mark ′", " ft"},
                                      {0x2019, "typographic foot mark ’", " ft"},
                                      {0x2212, "typographic minus −", "-"},
                                      {0x2013, "dash –", "-"},
                                      {0x2044, "fraction stroke ⁄", "/"},
                                      {0xbc, "letter ¼", " 1/4"},
                                      {0xbd, "letter ½", " 1/2"},
                                      {0xbe, "letter ¾", " 3/4"},
                                      {0x215b, "letter ⅛", " 1/8"},
                                      {0x215c, "letter ⅜", " 3/8"},
                                      {0x215d, "letter ⅝", " 5/8"},
                                      {0x215e, "letter ⅞", " 7/8"},
                                      {0xba, "letter º (a small raised o)", "°"},
                                      {0x2da, "ring ˚", "°"},
                                      {0x2103, "letter ℃", " degC"},
                                      {0x2109, "letter ℉", " degF"},
                                      {0x2030, "sign ‰", " ‰"}}};

std::string name_of_hidden(long code, std::string_view bytes) {
  if (code == 0xa0 || code == 0x202f) return "a no-break space, which looks like a space and is none";
  return fmt::format("the character {}, which cannot be seen", escaped(bytes));
}

/// `text` with every typographic or hidden letter replaced by what is typed for it; the first of them goes into `what`.
std::string retyped(std::string_view text, std::string& what) {
  std::string out;
  for (size_t at = 0; at < text.size();) {
    const Rune r = rune_at(text, at);
    const auto bytes = text.substr(at, r.bytes);
    const Mark* mark = nullptr;
    for (const auto& m : marks)
      if (m.code == r.code) mark = &m;
    if (mark) out += out.empty() && mark->plain[0] == ' ' ? mark->plain + 1 : mark->plain;
    else out += is_hidden(r.code) ? " " : std::string(bytes);
    if (what.empty() && mark) what = std::string("the ") + mark->name;
    if (what.empty() && is_hidden(r.code)) what = name_of_hidden(r.code, bytes);
    at += r.bytes;
  }
  for (auto at = out.find("  "); at != std::string::npos; at = out.find("  ")) out.erase(at, 1);
  const auto begin = out.find_first_not_of(' ');
  return begin == std::string::npos ? "" : out.substr(begin, out.find_last_not_of(' ') - begin + 1);
}

}  // namespace

std::string slip_of_letters(std::string_view text) {
  std::string what;
  const auto plain = retyped(text, what);
  if (!what.empty()) {
    // Feet with inches behind them are not mended by other marks.
    const auto feet = slip_of_feet_and_inches(plain);
    return fmt::format("holds {}; {}", what,
                       feet.empty() ? "write " + in_quotes(plain) : feet.substr(feet.find("write")));
  }
  static const std::regex comma(R"(^\s*([+-]?\d+),(\d+)(.*)$)");
  std::smatch m;
  const std::string all(text);
  if (!std::regex_match(all, m, comma)) return "";
  const auto decimal = m[1].str() + "." + m[2].str() + m[3].str(), thousands = m[1].str() + m[2].str() + m[3].str();
  const bool open = m[2].length() == 3 && m[1].str() != "0" && m[3].str().find(',') == std::string::npos;
  return open ? fmt::format("has a comma in its number; write {} or {}, whichever is meant", in_quotes(thousands),
                            in_quotes(decimal))
              : fmt::format("has a comma in its number, where a point belongs; write {}", in_quotes(decimal));
}

std::string slip_of_feet_and_inches(std::string_view text) {
  // Something stands between the word and the inches: "ft2" is an area.
  static const std::regex both(
      R"(^\s*(\d+(?:\.\d+)?)\s*(?:'[\s,-]*|(?:ft|foot|feet)[\s,-]+)(\d+(?:\.\d+)?)(?:\s+(\d+)/(\d+))?\s*(?:"|''|in|ins|inch|inches)?\s*$)");
  std::smatch m;
  const std::string all(text);
  if (!std::regex_match(all, m, both)) return "";
  double inches = 12 * std::stod(m[1].str()) + std::stod(m[2].str());
  if (m[3].matched && std::stod(m[4].str()) > 0) inches += std::stod(m[3].str()) / std::stod(m[4].str());
  return fmt::format("is in feet and inches; write it in one unit: \"{} in\"", print_number(inches, 8));
}

std::string slip_of_kind(std::string_view number, std::string_view written, Quantity kind) {
  const auto is = [&](std::initializer_list<const char*> words) {
    for (const auto* w : words)
      if (written == w) return true;
    return false;
  };
  const auto per = [&](const char* what, const char* unit) {
    return fmt::format("is {}; write {}", what, in_quotes(std::string(number) + " " + unit));
  };
  if (kind == Quantity::area_mass) {
    if (is({"oz", "ounce", "ounces"})) return per("a weight without its area", "oz/yd^2");
    if (is({"g", "gram", "grams"})) return per("a weight without its area", "g/m^2");
  }
  if (kind == Quantity::force_per_width) {
    if (is({"lb", "lbs", "lbf", "pound", "pounds"})) return per("a force without its width", "lb/in");
    if (is({"N", "newton", "newtons"})) return per("a force without its width", "N/m");
  }
  if (kind == Quantity::temperature && is({"deg", "°", "degree", "degrees"}))
    return fmt::format("does not say which degrees; write {} or {}", in_quotes(std::string(number) + " degF"),
                       in_quotes(std::string(number) + " degC"));
  return "";
}

}  // namespace evenpull
