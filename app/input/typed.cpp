#include "app/input/typed.hpp"

#include "app/input/document.hpp"
#include "app/text/quoted.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <sstream>

namespace evenpull {

std::string trimmed(const std::string& text) {
  const auto from = text.find_first_not_of(" \t");
  return from == std::string::npos ? "" : text.substr(from, text.find_last_not_of(" \t") + 1 - from);
}

std::string lower_case(std::string text) {
  for (char& l : text) l = static_cast<char>(std::tolower(static_cast<unsigned char>(l)));
  return text;
}

std::vector<std::string> parted_at(const std::string& text, char sign) {
  std::vector<std::string> out;
  for (std::size_t from = 0; from <= text.size();) {
    const auto end = std::min(text.find(sign, from), text.size());
    out.push_back(trimmed(text.substr(from, end - from)));
    from = end + 1;
  }
  return out;
}

std::optional<int> whole_number_in(const std::string& text) {
  int value = 0;
  const char* const begin = text.data() + (text.size() > 1 && text[0] == '+' ? 1 : 0);
  const char* const all = text.data() + text.size();
  const auto [end, error] = std::from_chars(begin, all, value);
  if (error != std::errc{} || end != all) return {};
  return value;
}

void Typed::refuse(const std::string& sentence) const {
  throw CaseFileError(option_, {}, "", in_quotes(text_) + " " + sentence);
}

void Typed::refuse_part(const std::string& part, const std::string& sentence) const {
  const std::string of = part == text_ ? "" : " in " + in_quotes(text_);
  throw CaseFileError(option_, {}, "", in_quotes(part) + of + " " + sentence);
}

double Typed::quantity(const std::string& part, Quantity kind, const Range& range) const {
  double value = 0;
  try {
    value = Units().parse(part, kind);
  } catch (const UnitError& e) {
    refuse_part(part, e.what());
  }
  if (!(value >= range.low && value <= range.high))
    refuse_part(part, fmt::format("makes no sense here: it may be {}; {}", print_bounds(kind, range.low, range.high),
                                  range.usual));
  return value;
}

std::pair<Side, int> Typed::bay(const std::string& part, int bays, const std::string& example) const {
  std::string words = lower_case(part);
  std::replace(words.begin(), words.end(), ',', ' ');
  std::istringstream in(words);
  std::optional<Side> side;
  std::optional<int> number;
  bool understood = true;
  for (std::string word, before; in >> word; before = word) {
    if (word == "top" || word == "bottom") side = word == "top" ? Side::top : Side::bottom;
    else if (before == "bay") number = whole_number_in(word), understood = understood && number;
    else understood = understood && word == "bay";
  }
  if (!understood || !side || !number) refuse("names no bay and side; write " + example);
  if (*number < 1 || *number > bays)
    refuse(fmt::format("names bay {}, but the panel has {}, counted from the inboard end", *number,
                       bays == 1 ? "bay 1 alone" : fmt::format("bays 1 to {}", bays)));
  return {*side, *number - 1};
}

}  // namespace evenpull
