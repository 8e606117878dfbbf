// Wires, a wing that goes on and a profile from skin to skin, as they are read and told back.
#include "app/output/survey_json.hpp"
#include "tests/app/case_text.hpp"
#include "viz/words/frame_kinds.hpp"
#include "viz/words/survey_text.hpp"

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

const std::string crossed =
    "[[brace]]\nname = \"drag wire\"\nwire = true\nfrom = { member = \"leading edge tube\", rib = 1 }\n"
    "to = { member = \"trailing edge tube\", rib = 2 }\ndiameter = \"1/8 in\"\ntightness = \"40 lbf\"\n"
    "material = \"4130 tube\"\n"
    "[[brace]]\nname = \"anti-drag wire\"\nwire = true\nfrom = { member = \"leading edge tube\", rib = 2 }\n"
    "to = { member = \"trailing edge tube\", rib = 1 }\ndiameter = \"1/8 in\"\nmaterial = \"4130 tube\"\n";

std::string told(const Case& c) { return survey_text(c, build_panel(c, {c.target_nodes}), {}, {}, 2, "folder"); }

std::string going_on(const std::string& ends) {
  return with(base(), "span = \"1800 mm\"", "span = \"1800 mm\"\ngoes_on_beyond = " + ends);
}

}  // namespace

TEST_CASE("a wire is read as a round rod that only pulls, untightened unless it is said", "[case]") {
  const Case c = case_of(base() + crossed);
  REQUIRE(c.braces.size() == 2);
  const Section s = section_of(c.braces[0].make.shape, 0);
  CHECK(c.braces[0].wire);
  CHECK(s.area == Approx(M_PI / 4 * std::pow(3.175e-3, 2)));
  CHECK(c.braces[0].tightness == Approx(40 * 4.4482216));
  CHECK(c.braces[1].tightness == 0);
  bool said = false;
  for (const auto& d : c.defaults_used) said = said || d.key == "brace[2].tightness";
  CHECK(said);
  CHECK(c.doubts.empty());
  CHECK_THAT(told(c), Contains("wire 1/8 in (3.18 mm), 4130 tube, which only pulls; drawn tight to 40 lbf (178 N)"));
  CHECK_THAT(told(c), Contains("not drawn tight"));
}

TEST_CASE("a brace that is no wire is told as before", "[case]") {
  const std::string brace = with(with(crossed, "wire = true\n", ""), "diameter = \"1/8 in\"\ntightness = \"40 lbf\"",
                                 "section = { shape = \"tube\", outside_diameter = \"3/8 in\", wall = \"0.035 in\" }");
  const Case c = case_of(base() + brace.substr(0, brace.find("[[brace]]", 5)));
  CHECK_FALSE(c.braces[0].wire);
  CHECK_THAT(told(c), Contains("at rib 2: tube 3/8 in (9.53 mm) x 0.035 in (0.89 mm), 4130 tube"));
}

TEST_CASE("a wing that goes on has inner ribs there, and the reader is told what the bay beyond is taken for",
          "[case]") {
  std::string text = with(going_on("[\"inboard end\"]"),
                          "[ribs.inner]\nsection = { shape = \"tube\", outside_diameter = \"1/2 in\"",
                          "[ribs.inner]\nsection = { shape = \"tube\", outside_diameter = \"3/8 in\"");
  const Case c = case_of(text);
  CHECK(c.cloth_goes_on_inboard);
  CHECK_FALSE(c.cloth_goes_on_outboard);
  CHECK(c.ribs.front().make.shape.outside_diameter == Approx(3 * 25.4e-3 / 8));
  CHECK(c.ribs.back().make.shape.outside_diameter == Approx(12.7e-3));
  CHECK_THAT(viz::neighbour_taken_for(c), Contains("goes on beyond rib 1"));
  CHECK_THAT(viz::neighbour_in_step(c), Contains("iron in step"));
  CHECK_THAT(told(c), Contains("mirror image"));
  CHECK(viz::neighbour_in_step(case_of(base())).empty());
}

TEST_CASE("a wing that goes on at both ends needs no end ribs", "[case]") {
  std::string text = going_on("[\"inboard end\", \"outboard end\"]");
  const auto at = text.find("[ribs.end]");
  text.erase(at, text.find("[ribs.inner]") - at);
  const Case c = case_of(text);
  CHECK(c.cloth_goes_on_inboard);
  CHECK(c.cloth_goes_on_outboard);
  const std::string json = survey_document(c, build_panel(c, {c.target_nodes}), {}, {}, "0");
  CHECK_THAT(json, Contains("\"outboard end\""));
}

TEST_CASE("a profile from skin to skin is the same as its halves, bowed or not", "[case]") {
  const auto heights = "height = [\"13 mm\", \"11 mm\", \"6 mm\"]";
  const Case halves = case_of(
      with(base(), heights, "top = [\"13 mm\", \"16 mm\", \"6 mm\"]\nbottom = [\"13 mm\", \"6 mm\", \"6 mm\"]"));
  const Case whole =
      case_of(with(base(), heights, "thickness = [\"26 mm\", \"22 mm\", \"12 mm\"]\nmid_line = [0, \"5 mm\", 0]"));
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(whole.profile[i].top == Approx(halves.profile[i].top));
    CHECK(whole.profile[i].bottom == Approx(halves.profile[i].bottom));
  }
  const Case straight = case_of(with(base(), heights, "thickness = [\"26 mm\", \"22 mm\", \"12 mm\"]"));
  CHECK(straight.profile[1].top == Approx(case_of(base()).profile[1].top));
}
