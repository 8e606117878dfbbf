#include "tests/support/sample_plan.hpp"
#include "viz/words/time_words.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::viz;
using Catch::Matchers::Contains;

TEST_CASE("a time is said as a clock is read") {
  CHECK(duration_text(42) == "42 s");
  CHECK(duration_text(90) == "2 min");
  CHECK(duration_text(3599) == "1 h");
  CHECK(duration_text(4800) == "1 h 20 min");
}

TEST_CASE("page one says how long the job takes, and nothing where there is nothing to do") {
  Plan plan = sample_plan();
  plan.times = {{0, 1200, 600, 600, 10}, {1, 600, 60, 600, 1}};
  CHECK(time_sentence(plan) ==
        "Time: about 1 h 1 min: ironing 30 min, 11 turn-overs 11 min, cooling and checks 20 min. 250 °F 40 min, 300 °F "
        "21 min.");
  plan.ceiling.reset();
  CHECK(time_sentence(plan).empty());
}
