// Cases mutilated at random, as slips and other programs do it: each is read and its panel built, or it gets one message.
#include "app/input/order_file.hpp"
#include "app/text/quoted.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/errors.hpp"
#include "tests/app/case_text.hpp"

#include <sys/resource.h>

#include <chrono>
#include <map>
#include <random>
#include <vector>

using namespace evenpull;
using namespace evenpull_test;

namespace {

constexpr unsigned seed = 20240229;
constexpr int a_file = 500;               // mutilated copies of each case
constexpr double longest = 5;             // s, reading and panel, on a machine that does much else
constexpr long most_memory = 400 * 1024;  // kB that all of them together may add
constexpr int few_nodes = 300;
#ifdef __SANITIZE_ADDRESS__
constexpr bool freed_is_kept_back = true;  // so that its use after that is found
#else
constexpr bool freed_is_kept_back = false;
#endif

using Random = std::mt19937;

size_t below(Random& r, size_t n) { return r() % n; }  // the library's distributions differ from one to another

template <class List>
const auto& one_of(Random& r, const List& list) {
  return list[below(r, list.size())];
}

const std::vector<std::string> values = {"nan",
                                         "inf",
                                         "-inf",
                                         "0",
                                         "-1",
                                         "1",
                                         "2",
                                         "1e308",
                                         "1e-308",
                                         "-0.0",
                                         "9223372036854775807",
                                         "true",
                                         "[]",
                                         "{}",
                                         "[[]]",
                                         "\"\"",
                                         "\" \"",
                                         "\"0 mm\"",
                                         "\"1e308 mm\"",
                                         "\"1e-300 mm\"",
                                         "\"-1 mm\"",
                                         "\"nan mm\"",
                                         "\"1800\"",
                                         "\"5 Hz\"",
                                         "\"1 mm @ 3\"",
                                         "\"lg(re 1 mW)\"",
                                         "\"1' 6\\\"\"",
                                         "\"18″\"",
                                         "\"0,035 in\"",
                                         "\"1\u00a0in\"",
                                         "\"100 %\"",
                                         "\"0 %\"",
                                         "\"-5 %\"",
                                         "\"200 %\"",
                                         "\"99.9999 %\"",
                                         "\"1e-9 %\"",
                                         "\"250 degF\"",
                                         "\"0 K\"",
                                         "\"400 degF\"",
                                         "\"1 deg\"",
                                         "\"90 deg\"",
                                         "\"\\u001b[2J\"",
                                         "\"a\\nb\"",
                                         "1979-05-27",
                                         "\"light\"",
                                         "\"clamp\"",
                                         "\"rest\"",
                                         "\"horn\"",
                                         "\"whole length\"",
                                         "\"spar\"",
                                         "\"closed nose\"",
                                         "\"two sheets\"",
                                         "\"glued\"",
                                         "\"free\"",
                                         "[\"x\"]",
                                         "[1, 1, 1]",
                                         "[0.01]",
                                         "[\"0 mm\", \"1 mm\"]",
                                         "{ warp = 1, fill = 0 }",
                                         "{ member = \"spar\", rib = 1 }",
                                         "\"1 kN/m\"",
                                         "\"1e9 N/m\"",
                                         "\"1 N/m\"",
                                         "\"60 s\"",
                                         "\"0.02 s\"",
                                         "60",
                                         "0.3",
                                         "1e-12"};

const std::vector<std::string> units = {"mm",   "in",    "m",       "ft",     "degF", "degC", "K", "%",
                                        "N/m",  "lb/in", "oz/yd^2", "g/m^2",  "s",    "Hz",   "@", "^",
                                        "mm^4", "GPa",   "psi",     "\u00a0", "″",    "'"};

const std::vector<std::string> scraps = {"[",  "]",  "{",      "}",  "\"",   "'",    "=",    ",",      ".",
                                         "#",  "\n", "\t",     "\\", "\xff", "\xc3", "\x1b", "\u00a0", "“",
                                         "[[", "]]", "\"\"\"", "-",  "1",    "e",    "_"};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) out.push_back(line);
  return out;
}

/// Ranges of numbers in a line.
std::vector<std::pair<size_t, size_t>> numbers_of(const std::string& line) {
  std::vector<std::pair<size_t, size_t>> out;
  for (size_t at = line.find_first_of("0123456789"); at != std::string::npos;
       at = line.find_first_of("0123456789", out.back().second)) {
    const auto end = line.find_first_not_of("0123456789.", at);
    out.push_back({at, end == std::string::npos ? line.size() : end});
  }
  return out;
}

void change_value(Random& r, std::string& line) {
  const auto equals = line.find('=');
  if (equals != std::string::npos) line = line.substr(0, equals + 1) + " " + one_of(r, values);
}

void change_number(Random& r, std::string& line) {
  const auto numbers = numbers_of(line);
  if (numbers.empty()) return;
  const auto [begin, end] = one_of(r, numbers);
  static const std::vector<std::string> others = {"0", "-1", "1e-9", "1e9", "nan", "0.5",
                                                  "1", "2",  "3",    "7",   "99",  "1e400"};
  line.replace(begin, end - begin, one_of(r, others));
}

void scale_number(Random& r, std::string& line) {
  const auto numbers = numbers_of(line);
  if (numbers.empty()) return;
  const auto [begin, end] = one_of(r, numbers);
  static const std::vector<double> by = {0.01, 0.1, 0.5, 0.9, 0.999, 1.0001, 1.1, 2, 10, 25.4};
  line.replace(begin, end - begin, std::to_string(std::atof(line.substr(begin, end - begin).c_str()) * one_of(r, by)));
}

void change_unit(Random& r, std::string& line) {
  for (const auto& unit : {"mm\"", " in\"", "degF\"", "%\"", "oz/yd^2\"", "GPa\"", "g/m^2\""})
    if (const auto at = line.find(unit); at != std::string::npos) {
      line.replace(at, std::string(unit).size() - 1, one_of(r, units));
      return;
    }
}

void change_key(Random& r, std::string& line, const std::vector<std::string>& lines) {
  const auto& other = one_of(r, lines);
  const auto equals = line.find('='), from = other.find('=');
  if (equals != std::string::npos && from != std::string::npos) line = other.substr(0, from) + line.substr(equals);
}

/// One thing done to a text.
void mutilate(Random& r, std::vector<std::string>& lines) {
  const auto at = below(r, lines.size());
  auto& line = lines[at];
  switch (below(r, 11)) {
    case 0:
    case 1: return change_value(r, line);
    case 2: return change_number(r, line);
    case 3: return scale_number(r, line);
    case 4: return change_unit(r, line);
    case 5: return change_key(r, line, lines);
    case 6: lines.erase(lines.begin() + static_cast<long>(at)); return;
    case 7: lines.insert(lines.begin() + static_cast<long>(at), std::string(one_of(r, lines))); return;
    case 8: std::swap(line, lines[below(r, lines.size())]); return;
    case 9: line.insert(below(r, line.size() + 1), one_of(r, scraps)); return;
    default: {  // a whole table gone, or there twice
      const auto end = std::min(at + 1 + below(r, 6), lines.size());
      const std::vector<std::string> part(lines.begin() + static_cast<long>(at),
                                          lines.begin() + static_cast<long>(end));
      if (below(r, 2) == 0) lines.erase(lines.begin() + static_cast<long>(at), lines.begin() + static_cast<long>(end));
      else lines.insert(lines.end(), part.begin(), part.end());
    }
  }
}

std::string mutilated(Random& r, const std::string& text) {
  auto lines = lines_of(text);
  for (size_t n = 1 + below(r, 2); n > 0 && !lines.empty(); --n) mutilate(r, lines);
  std::string out;
  for (const auto& line : lines) out += line + "\n";
  return below(r, 50) == 0 ? out.substr(0, below(r, out.size() + 1)) : out;
}

/// The case without comments: what is changed is to matter.
std::string bare(const std::string& text) {
  std::string out;
  for (const auto& line : lines_of(text))
    if (!line.empty() && line[0] != '#') out += line + "\n";
  return out;
}

struct Count {
  int read = 0, refused = 0, by_the_panel = 0;
  double longest = 0;
  std::map<std::string, int> messages;  ///< by the words behind the key
};

void check_message(const std::string& what, const std::string& path) {
  INFO(what);
  REQUIRE(what.rfind(path + ":", 0) == 0);
  REQUIRE(std::isdigit(static_cast<unsigned char>(what[path.size() + 1])));
  REQUIRE(what == on_one_line(what));
  REQUIRE(what.size() < path.size() + 2000);
}

/// Does it, and counts how it went. Any other exception ends the test.
template <class Work>
void try_it(Count& count, const std::string& path, const std::string& text, const Work& work) {
  const auto before = std::chrono::steady_clock::now();
  INFO(text);
  try {
    work();
    ++count.read;
  } catch (const CaseFileError& e) {
    check_message(e.what(), path);
    ++count.refused;
    ++count.messages[std::string(e.what()).substr(std::string(e.what()).rfind(": ") + 2)];
  }
  const double took = std::chrono::duration<double>(std::chrono::steady_clock::now() - before).count();
  REQUIRE(took < longest);
  count.longest = std::max(count.longest, took);
}

void read_and_build(const std::string& path, Count& count) {
  auto file = read_case_file(path);
  try {
    build_panel(file.value, {std::min(file.value.target_nodes, few_nodes)});
  } catch (const CaseError& e) {
    ++count.by_the_panel;
    throw CaseFileError(path, file.place_of(e.key), e.key, e.what());
  }
}

long kilobytes_used() {
  rusage r{};
  getrusage(RUSAGE_SELF, &r);
  return r.ru_maxrss;
}

void report(const char* what, const Count& count) {
  std::printf("%s: %d read, %d refused (%d by the panel) in %zu different words; longest %.3f s\n", what, count.read,
              count.refused, count.by_the_panel, count.messages.size(), count.longest);
}

}  // namespace

TEST_CASE("a case mutilated at random is read and its panel built, or it gets one message", "[random]") {
  const TemporaryFolder folder;
  const long memory = kilobytes_used();
  Random r(seed);
  Count count;
  for (const auto* name : {"template", "metal_aileron", "light_tube_rudder", "very_light_bow", "two_sheet_elevator",
                           "training_panel", "wing_bay", "wooden_aileron", "welded_elevator"}) {
    const auto text = bare(read_all(std::string(EVENPULL_CASES_DIR) + "/" + name + ".toml"));
    for (int i = 0; i < a_file; ++i) {
      const auto changed = mutilated(r, text);
      const auto path = folder.write("case.toml", changed);
      try_it(count, path, changed, [&] { read_and_build(path, count); });
    }
  }
  report("cases", count);
  // Both ways are to be walked, and many of the messages to be met.
  CHECK(count.read > a_file);
  CHECK(count.refused > a_file);
  CHECK(count.messages.size() > 100);
  if (!freed_is_kept_back) CHECK(kilobytes_used() - memory < most_memory);
}

TEST_CASE("an order mutilated at random is read, or it gets one message", "[random]") {
  const TemporaryFolder folder;
  const auto c = case_of(base());
  std::vector<OrderStep> steps;
  for (int stage = 0; stage < 3; ++stage)
    for (int pass = 1; pass <= 2; ++pass)
      for (int bay = 1; bay <= 6; ++bay)
        for (const auto side : {Side::top, Side::bottom})
          steps.push_back({c.stages[static_cast<size_t>(stage)].temperature, pass, side, bay, 1, 0.5});
  const auto text = order_text(steps, {true, true}, "h", 600);
  Random r(seed);
  Count count;
  for (int i = 0; i < 2 * a_file; ++i) {
    const auto changed = mutilated(r, text);
    const auto path = folder.write("order.toml", changed);
    try_it(count, path, changed, [&] {
      auto own = c;
      const auto order = read_order_file(path, own);
      take_passes(own, order, path);
      Panel panel;
      panel.bays = 6;
      panel.strips = 1;
      check_order(order, path, own, panel);
      steps_done(order, path);
    });
  }
  report("orders", count);
  CHECK(count.read > a_file / 5);
  CHECK(count.refused > a_file / 2);
  CHECK(count.messages.size() > 20);
}
