#include "tests/book/words.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>

namespace evenpull::book {
namespace {

std::string printed(const char* format, double value) {
  char text[64];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

}  // namespace

std::string number(double value) {
  if (std::abs(value) < 1e-12) return "0";  // rounding of a zero
  return printed("%.5g", value);
}

std::string decimals(double value, int digits) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", digits, value);
  return text;
}

std::string percent(double share) {
  if (share < nothing) return "< 0.0001 %";
  const double value = 100 * share;
  // One decimal to four.
  const int digits = std::clamp(1 - static_cast<int>(std::floor(std::log10(value))), 1, 4);
  return decimals(value, digits) + " %";
}

std::string bar(double share) { return printed("%.2g", 100 * share) + " %"; }

std::string plain(const std::string& text) {
  std::string out;
  for (char c : text) {
    if (c == '|' || c == '*' || c == '_' || c == '<' || c == '`' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string escaped(const std::string& text) {
  std::string out;
  for (char c : text)
    if (c == '&') out += "&amp;";
    else if (c == '<') out += "&lt;";
    else if (c == '>') out += "&gt;";
    else out += c;
  return out;
}

std::string file_name(const std::string& text) {
  std::string out;
  for (unsigned char c : text) {
    if (std::isalnum(c)) out += static_cast<char>(std::tolower(c));
    else if (!out.empty() && out.back() != '-') out += '-';
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out;
}

}  // namespace evenpull::book
