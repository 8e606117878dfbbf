// Every list of a case and of an order says how much it may hold.
#include "app/input/order_file.hpp"
#include "app/text/most.hpp"
#include "tests/app/case_text.hpp"

#include <functional>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

std::string times(size_t n, const std::string& piece) {
  std::string out;
  for (size_t i = 0; i < n; ++i) out += piece;
  return out;
}

std::string list(size_t n, const std::string& entry) { return "[" + times(n, entry + ", ") + "]"; }

/// The list is refused for its length by its key, one entry less is not refused for that.
void check(const std::string& key, size_t most, const std::function<std::string(size_t)>& text) {
  INFO(key);
  const auto e = complaint(text(most + 1));
  CHECK(e.key == key);
  CHECK(e.place.line > 0);
  CHECK_THAT(e.what(), Contains(std::to_string(most + 1)) && Contains(std::to_string(most)));
  try {
    case_of(text(most));
  } catch (const CaseFileError& other) {
    CHECK_THAT(other.what(), !Contains("may be listed") && !Contains("is the most"));
  }
}

const std::string stations =
    "stations = [\"0 mm\", \"300 mm\", \"600 mm\", \"900 mm\", \"1200 mm\", \"1500 mm\", \"1800 mm\"]";

}  // namespace

TEST_CASE("every list of a frame says how much it may hold", "[bounds]") {
  check("member", most::members,
        [](size_t n) { return with(base(), "[ribs]", times(n - 2, "[[member]]\n") + "[ribs]"); });
  check("member[1].along", most::changes, [](size_t n) {
    return with(base(), "name = \"leading edge tube\"", "along = " + list(n, "{}") + "\nname = \"leading edge tube\"");
  });
  check("ribs.stations", most::ribs,
        [](size_t n) { return with(base(), stations, "stations = " + list(n, "\"0 mm\"")); });
  check("ribs.single", most::ribs, [](size_t n) { return base() + times(n, "[[ribs.single]]\n"); });
  check("brace", most::braces, [](size_t n) { return base() + times(n, "[[brace]]\n"); });
  check("batten", most::battens, [](size_t n) { return base() + times(n, "[[batten]]\n"); });
  check("attach", most::attachments, [](size_t n) { return base() + times(n, "[[attach]]\n"); });
  check("profile.at", most::profile_points,
        [](size_t n) { return with(base(), "at     = [\"0 mm\", \"100 mm\", \"350 mm\"]", "at = " + list(n, "0")); });
  check("profile.height", most::profile_points,
        [](size_t n) { return with(base(), "[\"13 mm\", \"11 mm\", \"6 mm\"]", list(n, "0")); });
  check("outline.leading_edge", most::outline_points, [](size_t n) {
    return with(base(), "span = \"1800 mm\"\nchord = \"350 mm\"", "leading_edge = " + list(n, "[\"0 mm\", \"0 mm\"]"));
  });
  check("materials", most::materials, [](size_t n) {
    auto text = base();
    for (size_t i = 0; i < n; ++i) text += "[materials.m" + std::to_string(i) + "]\n";
    return text;
  });
}

TEST_CASE("every list of supports, cloth, iron and work says how much it may hold", "[bounds]") {
  check("supports.in_use", most::supports, [](size_t n) { return base() + times(n - 3, "[[supports.in_use]]\n"); });
  check("supports.while_ironed[1].at", most::places_of_a_support,
        [](size_t n) { return with(base(), "[\"inboard end\", \"outboard end\"]", list(n, "\"0 mm\"")); });
  check("supports.while_ironed[1].holds", most::motions,
        [](size_t n) { return with(base(), "as = \"clamp\"", "holds = " + list(n, "\"x\"")); });
  check("cloth.curve", most::curve_points, [](size_t n) { return base() + times(n, "[[cloth.curve]]\n"); });
  check("iron.reading", most::marks, [](size_t n) { return base() + times(n, "[[iron.reading]]\n"); });
  check("iron.reading[1].sole", most::readings_of_a_mark,
        [](size_t n) { return base() + "[[iron.reading]]\ndial = 1\nsole = " + list(n, "\"250 degF\""); });
  check("stage", most::stages, [](size_t n) { return base() + times(n - 3, "[[stage]]\n"); });
  check("stage[1].passes", most::passes,
        [](size_t n) { return with(base(), "[\"light\", \"light\", \"full\"]", list(n, "1")); });
}

TEST_CASE("an order of more steps than are read is refused, and the most that are read are read", "[bounds]") {
  const auto c = case_of(base());
  const auto steps = [](size_t n) {
    return "format = 1\nsteps = [\n" +
           times(
               n,
               "{ stage = \"250 degF\", pass = 1, side = \"top\", bay = 1, strip = 1, dose = 0.25, done = false },\n") +
           "]\n";
  };
  const TemporaryFolder folder;
  CHECK(read_order_file(folder.write("order.toml", steps(most::order_steps)), c).steps.size() == most::order_steps);
  CHECK_THROWS_WITH(read_order_file(folder.write("order.toml", steps(most::order_steps + 1)), c),
                    Contains("order.toml:2:9: steps: there are 20001 of them; 20000 is the most"));
}
