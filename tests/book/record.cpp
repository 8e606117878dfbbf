#include "tests/book/record.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <istream>
#include <set>
#include <sstream>
#include <stdexcept>
#include <tuple>

namespace evenpull::book {
namespace {

// As listed at Entry::chapter (tests/support/book.hpp); others come last, by name.
const std::vector<std::string> chapters = {
    "Cloth", "Frame", "Edge and friction", "Heat shrink", "Air and vibration", "Whole panels"};

std::size_t place_of(const std::string& chapter) {
  return static_cast<std::size_t>(std::find(chapters.begin(), chapters.end(), chapter) - chapters.begin());
}

// "2 spans" before "10 spans", "0.25" before "0.5".
bool comes_before(const std::string& a, const std::string& b) {
  std::size_t i = 0, j = 0;
  const auto digit = [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; };
  while (i < a.size() && j < b.size()) {
    if (digit(a[i]) && digit(b[j])) {
      std::size_t used_a = 0, used_b = 0;
      const double x = std::stod(a.substr(i), &used_a), y = std::stod(b.substr(j), &used_b);
      if (x != y) return x < y;
      i += used_a, j += used_b;
    } else {
      if (a[i] != b[j]) return a[i] < b[j];
      ++i, ++j;
    }
  }
  if ((i < a.size()) != (j < b.size())) return i >= a.size();
  return a < b;
}

void take(Record& r, const std::string& key, const std::string& value) {
  const auto number = [&] { return std::stod(value); };
  if (key == "chapter") r.chapter = value;
  else if (key == "check") r.check = value;
  else if (key == "quantity") r.quantity = value;
  else if (key == "source") r.source = value;
  else if (key == "note") r.note = value;
  else if (key == "approach") r.approach = value;
  else if (key == "published") r.published = number();
  else if (key == "ours") r.ours = number();
  else if (key == "tolerance") r.tolerance = number();
  else if (key == "scale") r.scale = number();
  else if (key == "theory") r.theory = number();
  else if (key == "least_order") r.least_order = number();
  else if (key == "order") r.order = number();
  else if (key == "plus_minus") r.plus_minus = number();
  else if (key == "level") {
    std::istringstream both(value);
    Level l;
    if (!(both >> l.size >> l.value)) throw std::invalid_argument(value);
    r.levels.push_back(l);
  } else {
    throw std::invalid_argument(key);
  }
}

}  // namespace

double Record::measure() const { return scale > 0 ? scale : std::abs(published); }
double Record::error_of(double value) const { return std::abs(value - published) / measure(); }
double Record::error() const { return error_of(ours); }

std::vector<Record> read_records(std::istream& in) {
  std::vector<Record> out;
  std::set<std::tuple<std::string, std::string, std::string>> seen;
  Record now;
  bool open = false;
  int at = 0;
  const auto fail = [&](const std::string& what) {
    throw std::runtime_error("records, line " + std::to_string(at) + ": " + what);
  };
  const auto close = [&] {
    if (!open) return;
    if (now.chapter.empty() || now.check.empty() || now.quantity.empty() || now.source.empty())
      fail("the block before lacks its chapter, check, quantity or source");
    if (!(now.measure() > 0)) fail("'" + now.check + "' has no number to compare with");
    if (!seen.emplace(now.chapter, now.check, now.quantity).second)
      fail("'" + now.check + "', '" + now.quantity + "' is there twice: give one of them another name");
    out.push_back(now);
    now = Record{};
    open = false;
  };
  for (std::string line; std::getline(in, line);) {
    ++at;
    if (line.empty()) {
      close();
      continue;
    }
    open = true;
    const std::size_t tab = line.find('\t');
    if (tab == std::string::npos) fail("no tab in '" + line + "'");
    try {
      take(now, line.substr(0, tab), line.substr(tab + 1));
    } catch (const std::logic_error&) {
      fail("not understood: '" + line + "'");
    }
  }
  close();
  return out;
}

void sort_records(std::vector<Record>& records) {
  std::sort(records.begin(), records.end(), [](const Record& a, const Record& b) {
    if (a.chapter != b.chapter) {
      const std::size_t x = place_of(a.chapter), y = place_of(b.chapter);
      return x != y ? x < y : a.chapter < b.chapter;
    }
    if (a.check != b.check) return comes_before(a.check, b.check);
    return comes_before(a.quantity, b.quantity);
  });
}

}  // namespace evenpull::book
