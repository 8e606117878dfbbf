#include "tests/book/compare.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <sstream>
#include <vector>

namespace evenpull::book {
namespace {

struct Number {
  double value = 0;
  double unit = 1;  // of the last digit printed, 0 for a whole number, which is one or is none
};

// A text with its numbers taken out.
struct Parts {
  std::string words;
  std::vector<Number> numbers;
};

bool digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

Parts take_apart(const std::string& text) {
  Parts out;
  for (std::size_t i = 0; i < text.size();) {
    const bool minus = text[i] == '-' && i + 1 < text.size() && digit(text[i + 1]);
    if (!digit(text[i]) && !minus) {
      out.words += text[i++];
      continue;
    }
    char* end = nullptr;
    Number n;
    n.value = std::strtod(text.c_str() + i, &end);
    const std::string printed = text.substr(i, static_cast<std::size_t>(end - (text.c_str() + i)));
    const std::size_t point = printed.find('.'), power = std::min(printed.find('e'), printed.size());
    n.unit = point < power || power < printed.size() ? 1 : 0;
    if (point < power) n.unit = std::pow(10.0, -static_cast<double>(power - point - 1));
    if (power < printed.size()) n.unit *= std::pow(10.0, std::atoi(printed.c_str() + power + 1));
    out.numbers.push_back(n);
    out.words += '#';
    i += printed.size();
  }
  return out;
}

bool near(const Number& a, const Number& b) {
  const double apart = std::abs(a.value - b.value);
  return apart <= same_share * std::max(std::abs(a.value), std::abs(b.value)) ||
         apart <= same_units * std::min(a.unit, b.unit);
}

// Numbers and what stands between them in the book's tables.
bool only_numbers(const std::string& cell) {
  bool any = false;
  for (char c : cell) {
    any = any || digit(c);
    if (!digit(c) && std::string(" .,-+eE%</±").find(c) == std::string::npos) return false;
  }
  return any;
}

bool cells_agree(const std::string& a, const std::string& b) {
  if (a == b) return true;
  if (!only_numbers(a) || !only_numbers(b)) return false;
  Parts x = take_apart(a), y = take_apart(b);
  for (Parts* p : {&x, &y})  // "< 0.0001" is as good as "0.0001"
    p->words.erase(std::remove_if(p->words.begin(), p->words.end(), [](char c) { return c == '<' || c == ' '; }),
                   p->words.end());
  return x.words == y.words && std::equal(x.numbers.begin(), x.numbers.end(), y.numbers.begin(), y.numbers.end(), near);
}

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string piece; std::getline(in, piece, at);) out.push_back(piece);
  return out;
}

bool text_lines_agree(const std::string& a, const std::string& b) {
  if (a == b) return true;
  if (a.empty() || b.empty() || a[0] != '|' || b[0] != '|') return false;
  const std::vector<std::string> x = split(a, '|'), y = split(b, '|');
  return std::equal(x.begin(), x.end(), y.begin(), y.end(), cells_agree);
}

bool picture_lines_agree(const std::string& a, const std::string& b) {
  if (a == b) return true;
  const std::size_t end_a = a.find('>'), end_b = b.find('>');
  if (end_a == std::string::npos || end_b == std::string::npos || a.substr(end_a) != b.substr(end_b)) return false;
  const Parts x = take_apart(a.substr(0, end_a)), y = take_apart(b.substr(0, end_b));
  return x.words == y.words &&
         std::equal(x.numbers.begin(), x.numbers.end(), y.numbers.begin(), y.numbers.end(),
                    [](const Number& n, const Number& m) { return std::abs(n.value - m.value) <= same_pixels; });
}

std::string first_difference(const std::string& kept, const std::string& fresh,
                             const std::function<bool(const std::string&, const std::string&)>& agree) {
  const std::vector<std::string> a = split(kept, '\n'), b = split(fresh, '\n');
  for (std::size_t i = 0; i < std::max(a.size(), b.size()); ++i) {
    const std::string x = i < a.size() ? a[i] : "(nothing)", y = i < b.size() ? b[i] : "(nothing)";
    if (i >= a.size() || i >= b.size() || !agree(x, y))
      return "line " + std::to_string(i + 1) + "\n  in the book: " + x + "\n  now:         " + y;
  }
  return "";
}

}  // namespace

std::string difference_of_text(const std::string& kept, const std::string& fresh) {
  return first_difference(kept, fresh, text_lines_agree);
}

std::string difference_of_picture(const std::string& kept, const std::string& fresh) {
  return first_difference(kept, fresh, picture_lines_agree);
}

}  // namespace evenpull::book
