#include "app/text/nearest.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

TEST_CASE("edit distance counts letters to change, add or drop", "[nearest]") {
  CHECK(edit_distance("chord", "chord") == 0);
  CHECK(edit_distance("cord", "chord") == 1);
  CHECK(edit_distance("span", "") == 4);
  CHECK(edit_distance("abc", "cba") == edit_distance("cba", "abc"));
}

TEST_CASE("a slip of the pen finds its word, another word finds none", "[nearest]") {
  CHECK(nearest("seem", {"seam", "kind"}) == "seam");
  CHECK(nearest("propeller", {"seam", "kind"}).empty());
}
