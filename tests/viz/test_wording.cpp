#include "viz/words/wording.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::viz;

TEST_CASE("numbers are said in the trade's unit first and the metric one beside it") {
  CHECK(degrees_both(422.0388889) == "300 °F (149 °C)");
  CHECK(length_both(1.5) == "59.1 in (1500 mm)");
  CHECK(small_length_both(0.003) == "0.12 in (3.0 mm)");
  CHECK(pull_both(600) == "3.4 lb/in (600 N/m)");
  CHECK(angle_text(0.00872664626) == "0.50°");
}

TEST_CASE("a use comes with its error bar where one is known") {
  CHECK(use_text(0.83, 0.02) == "0.83 ± 0.02");
  CHECK(use_text(0.834, 0.021) == "0.83 ± 0.03");  // ends at 0.855: the bar is rounded up
  CHECK(use_text(0.984, 0.017) == "0.98 ± 0.03");  // over the limit, and seen to be
  CHECK(use_text(0.834, 0) == "0.83");
  LimitReading l;
  l.use = 0.8, l.use_plus_minus = 1, l.study.gave_way = true;
  CHECK(use_text(l) == "0.80, error not known");
}

TEST_CASE("nothing is said as minus zero") {
  CHECK(small_length_both(-1e-9) == "0.00 in (0.0 mm)");
  CHECK(percent_text(-1e-6) == "0 %");
}

TEST_CASE("doses are said in words") {
  CHECK(dose_words(0.25) == "light");
  CHECK(dose_words(1) == "full");
  CHECK(dose_words(0.6) == "part (0.60 of a full pass)");
}

TEST_CASE("a buckling factor is a least value, all else a most one") {
  LimitReading r;
  r.limit = Limit::buckling;
  r.unit = "1";
  r.allowed = 2;
  CHECK(limit_allowed(r) == "at least 2.0");
  r.limit = Limit::slip;
  r.allowed = 0.003;
  CHECK(limit_allowed(r) == "0.12 in (3.0 mm)");
  r.limit = Limit::edge_bow;
  r.allowed = 0.01;
  CHECK(limit_allowed(r) == "1/100 of spacing");
}
