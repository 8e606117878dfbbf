#include "tests/support/sample_plan.hpp"
#include "viz/words/print.hpp"
#include "viz/words/survey_text.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using Catch::Matchers::Contains;

TEST_CASE("a length is said first in the unit in which somebody would have written it") {
  constexpr double inch = 0.0254;
  CHECK(print_length(0.035 * inch) == "0.035 in (0.89 mm)");
  CHECK(print_length(0.625 * inch) == "5/8 in (15.9 mm)");
  CHECK(print_length(70.875 * inch) == "70 7/8 in (1800.2 mm)");
  CHECK(print_length(0.0125 * inch) == "0.0125 in (0.32 mm)");
  CHECK(print_length(0.012) == "12 mm (0.472 in)");
  CHECK(print_length(0.0005) == "0.5 mm (0.020 in)");
  CHECK(print_length(1.8) == "1800 mm (70.87 in)");
  CHECK(print_length(0.02221) == "22.21 mm (0.874 in)");
  CHECK(print_length(1.0 / 3) == "13.12 in (333.3 mm)");
  CHECK(print_length(0) == "0 in (0 mm)");
  CHECK(print_length(-0.5 * inch) == "-1/2 in (-12.7 mm)");
}

TEST_CASE("a length that was written in the case is said as it was written") {
  CHECK(print_length(0.0127, "0.50 in") == "0.50 in (12.7 mm)");
  CHECK(print_length(0.0127, "12.7 mm") == "12.7 mm (1/2 in)");
  CHECK(print_length(0.0127, "1.27 cm") == "1.27 cm (12.7 mm)");
}

TEST_CASE("stations are listed in one unit") {
  CHECK(print_lengths({0, 0.254, 0.508}) == "0, 10, 20 in");
  CHECK(print_lengths({0, 0.3, 0.6}) == "0, 300, 600 mm");
  CHECK(print_lengths({0, 0.254, 0.6}) == "0, 254, 600 mm");
}

TEST_CASE("the survey says how deep the panel is at its edges, and never rounds a wall away") {
  Case c = sample_case();
  const auto text = survey_text(c, sample_panel(c), {}, {}, 2, "out");
  CHECK_THAT(text, Contains("From skin to skin, inboard: ") && Contains(" at the leading edge"));
  CHECK_THAT(text, !Contains("0.04 in"));
}
