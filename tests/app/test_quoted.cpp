#include "app/text/quoted.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

TEST_CASE("what a terminal would obey is shown as letters", "[quoted]") {
  CHECK(in_quotes("a\nb\tc\r") == "\"a\\nb\\tc\\r\"");
  CHECK(in_quotes("\x1b[2J") == "\"\\x1b[2J\"");
  CHECK(in_quotes(std::string("a\0b", 3)) == "\"a\\x00b\"");
  CHECK(in_quotes("\x7f") == "\"\\x7f\"");
  CHECK(in_quotes("\xc2\x9b"
                  "31m") == "\"\\u009b31m\"");  // an escape sequence may begin with one character of Latin-1
}

TEST_CASE("what cannot be seen is shown as letters", "[quoted]") {
  CHECK(in_quotes("1800\xc2\xa0mm") == "\"1800\\u00a0mm\"");
  CHECK(in_quotes("a\xe2\x80\xae"
                  "b") == "\"a\\u202eb\"");  // right to left from here
  CHECK(in_quotes("\xef\xbb\xbf") == "\"\\ufeff\"");
}

TEST_CASE("what can be seen stays as it is", "[quoted]") {
  CHECK(in_quotes("Höhenruder 2° ″ 舵") == "\"Höhenruder 2° ″ 舵\"");
  CHECK(in_quotes("5' 11\" \\") == "\"5' 11\\\" \\\\\"");
  CHECK(escaped("5' 11\" \\") == "5' 11\" \\");
}

TEST_CASE("bytes that are no UTF-8 are shown one by one", "[quoted]") {
  CHECK(in_quotes("a\xb0") == "\"a\\xb0\"");
  CHECK(in_quotes("\xc3") == "\"\\xc3\"");                    // cut off
  CHECK(in_quotes("\xc0\xaf") == "\"\\xc0\\xaf\"");           // longer than need be
  CHECK(in_quotes("\xed\xa0\x80") == "\"\\xed\\xa0\\x80\"");  // half of a pair
  CHECK(in_quotes("\xf5\x80\x80\x80") == "\"\\xf5\\x80\\x80\\x80\"");
}

TEST_CASE("what is long is cut, and says so", "[quoted]") {
  CHECK(in_quotes(std::string(most_shown, 'x')) == '"' + std::string(most_shown, 'x') + '"');
  CHECK(in_quotes(std::string(200000, 'x')) == '"' + std::string(most_shown, 'x') + "…\"");
  CHECK(escaped("äöü", 2) == "äö…");
}

TEST_CASE("a file is named by the end of its path, and standard input by its name", "[quoted]") {
  CHECK(shown_file("-") == "standard input");
  CHECK(shown_file("a\nb.toml") == "a\\nb.toml");
  const auto shown = shown_file(std::string(1000, 'd') + "/case.toml");
  CHECK(shown.rfind("…", 0) == 0);
  CHECK(shown.substr(shown.size() - 10) == "/case.toml");
}
