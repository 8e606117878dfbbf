#include "viz/words/limit_words.hpp"
#include "viz/words/wording.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <set>
#include <sstream>

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
  r.allowed = 2;
  CHECK(limit_allowed(r) == "at least 2.0");
  r.limit = Limit::slip;
  r.allowed = 0.003;
  CHECK(limit_allowed(r) == "0.12 in (3.0 mm)");
  r.limit = Limit::edge_bow;
  r.allowed = 0.01;
  CHECK(limit_allowed(r) == "1/100 of spacing");
}

TEST_CASE("the document on plan.json names the limits that there are, and each has its unit") {
  std::set<std::string> known, told;
  for (const Limit l : {Limit::buckling, Limit::end_rib_bow, Limit::pull_difference, Limit::slip, Limit::stress,
                        Limit::wood_stress, Limit::edge_bow, Limit::twist, Limit::unevenness, Limit::hinge_line_bow,
                        Limit::whole_edge_bow, Limit::crippling, Limit::waves}) {
    known.insert(limit_text(l));
    CHECK(std::string(limit_unit(l)).size() > 0);
  }
  std::ifstream in(EVENPULL_SOURCE_DIR "/docs/plan-json.md");
  const std::string text{std::istreambuf_iterator<char>(in), {}}, before = "each stage: `name` (";
  const auto from = text.find(before);
  REQUIRE(from != std::string::npos);
  const auto begin = from + before.size();
  std::istringstream names(text.substr(begin, text.find(')', begin) - begin));
  for (std::string name; std::getline(names >> std::ws, name, ',');) told.insert(name);
  CHECK(told == known);
}

TEST_CASE("a place is said by its member, the trailing edge, its bay or the whole panel") {
  Panel p;
  p.members.resize(2);
  p.members[1].name = "rib 3";
  CHECK(place_text(p, {}) == "whole panel");
  CHECK(place_text(p, {Place::Kind::bay, -1, 0, 0, 2}) == "bay 3");
  CHECK(place_text(p, {Place::Kind::trailing_edge, -1, 0.9}) == "trailing edge at 35.4 in (900 mm) from the root");
  CHECK(place_text(p, {Place::Kind::along_member, 1, 0.9}) == "rib 3 at 35.4 in (900 mm) from the root");
  CHECK(place_text(p, {Place::Kind::across_member, 1, 0.9, 0.4}) == "rib 3, 40 % of its length aft");
}
