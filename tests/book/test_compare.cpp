// When the book counts as stale.
#include "tests/book/compare.hpp"

#include <catch2/catch.hpp>

using namespace evenpull::book;

namespace {

const std::string line = "| Disc: rise [mm] | A (1915) | 0.65344 | 0.65291 | 0.081 % | 1.98 / 2 | 1 % |\n";

std::string with(std::string text, const std::string& from, const std::string& to) {
  text.replace(text.find(from), from.size(), to);
  return text;
}

}  // namespace

TEST_CASE("the same book is not stale, nor are last digits that differ") {
  CHECK(difference_of_text(line, line).empty());
  CHECK(difference_of_text(line, with(line, "0.65291", "0.65292")).empty());
  CHECK(difference_of_text(line, with(line, "1.98", "1.97")).empty());
  CHECK(difference_of_text(line, with(line, "0.081", "0.080")).empty());
  CHECK(difference_of_text("| a | < 0.0001 % |", "| a | 0.0001 % |").empty());
  CHECK(difference_of_text("| a | 1e-05, 10000 |", "| a | 1.0001e-05, 9999.8 |").empty());
}

TEST_CASE("another number, another word or a missing line makes the book stale") {
  CHECK_FALSE(difference_of_text(line, with(line, "0.65291", "0.66")).empty());
  CHECK_FALSE(difference_of_text(line, with(line, "1.98 / 2", "1.98 / 4")).empty());
  CHECK_FALSE(difference_of_text(line, with(line, "1.98 / 2", "– / 2")).empty());
  CHECK_FALSE(difference_of_text(line, with(line, "0.081", "-0.081")).empty());
  CHECK_FALSE(difference_of_text(line, line + line).empty());
  CHECK_FALSE(difference_of_text(line, "").empty());
}

TEST_CASE("numbers within words are words") {
  CHECK_FALSE(difference_of_text(line, with(line, "1915", "1916")).empty());
  CHECK_FALSE(difference_of_text("3 meshes", "4 meshes").empty());
}

TEST_CASE("a picture is stale when another thing is drawn, or at another place") {
  const std::string mark = "<circle cx=\"100.0\" cy=\"50.0\" r=\"5\"/>\n<text x=\"8.0\" y=\"9.0\">slope 2</text>\n";
  CHECK(difference_of_picture(mark, with(mark, "100.0", "101.0")).empty());
  CHECK_FALSE(difference_of_picture(mark, with(mark, "100.0", "110.0")).empty());
  CHECK_FALSE(difference_of_picture(mark, with(mark, "circle", "square")).empty());
  CHECK_FALSE(difference_of_picture(mark, with(mark, "slope 2", "slope 1")).empty());
}
