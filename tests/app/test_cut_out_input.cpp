// Pockets, hinge gaps and low ribs as they are read, in the words of the survey, and as an order file meets them. Every slip in
// them: messages/cut_outs.txt.
#include "app/input/order_file.hpp"
#include "app/output/survey_json.hpp"
#include "tests/app/case_text.hpp"
#include "viz/words/survey_text.hpp"

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

const std::string tube =
    "section = { shape = \"tube\", outside_diameter = \"1/2 in\", wall = \"0.035 in\" }\n"
    "material = \"6061-T6 tube\"\n";

std::string pocket(const std::string& depth, const std::string& member = tube) {
  return "[[pocket]]\nfrom = \"600 mm\"\nto = \"1200 mm\"\ndepth = \"" + depth + "\"\ngap = \"1/8 in\"\n" + member;
}

Case read_text(const std::string& text) {
  TemporaryFolder t;
  return read_case(t.write("case.toml", text));
}

std::string survey_of(const Case& c) {
  const Panel p = build_panel(c, {coarse_nodes});
  return survey_text(c, p, {}, {}, 2, "out");
}

}  // namespace

TEST_CASE("a pocket is read with its sides at ribs, its own front and the room round the tab", "[case]") {
  const Case c = read_text(base() + pocket("80 mm"));
  REQUIRE(c.pockets.size() == 1);
  const Pocket& p = c.pockets[0];
  CHECK(p.name == "tab pocket");
  CHECK(p.from == Approx(0.6));
  CHECK(p.to == Approx(1.2));
  CHECK(p.depth == Approx(0.08));
  CHECK(p.gap == Approx(0.003175));
  REQUIRE(p.make);
  CHECK(p.make->shape.outside_diameter == Approx(0.0127));
  const std::string words = survey_of(c);
  CHECK_THAT(words, Contains("tab pocket in the trailing edge, rib 3 to rib 5") && Contains("(front at 77.1 % of the"));
  CHECK_THAT(survey_document(c, build_panel(c, {coarse_nodes}), {}, {}, "test"),
             Contains("\"pockets\"") && Contains("tab pocket"));
}

TEST_CASE("where a spar stands at a pocket's front it is the front, and no other is asked for", "[case]") {
  const std::string spar = with(base(), "[[member]]\nname = \"trailing edge tube\"",
                                "[[member]]\nname = \"rear spar\"\nrole = \"spar\"\nat = \"75 %\"\n" + tube +
                                    "[[member]]\nname = \"trailing edge tube\"");
  const Case c = read_text(spar + pocket("87.5 mm", ""));
  CHECK_FALSE(c.pockets.at(0).make);
  CHECK_THAT(survey_of(c), Contains("rear spar is its front"));
}

TEST_CASE("on a tapered panel the survey says how deep a pocket is reckoned at its sides", "[case]") {
  const std::string tapered = with(base(), "chord = \"350 mm\"", "chord = \"350 mm\"\ntip_chord = \"250 mm\"");
  CHECK_THAT(survey_of(read_text(tapered + pocket("80 mm"))), Contains("at rib 3,") && Contains("reckoned"));
}

TEST_CASE("a hinge gap in a closed nose is read, and that the nose is reckoned whole is said", "[case]") {
  const std::string nose = with(base(),
                                "section = { shape = \"tube\", outside_diameter = \"1 in\", wall = \"0.035 in\" }",
                                "at = \"25 %\"\nsection = { shape = \"closed nose\", sheet = \"0.020 in\" }");
  const Case c = read_text(nose + "[[hinge_gap]]\nfrom = \"700 mm\"\nto = \"780 mm\"\ndepth = \"40 mm\"\n");
  REQUIRE(c.hinge_gaps.size() == 1);
  CHECK(c.hinge_gaps[0].depth == Approx(0.04));
  CHECK_THAT(survey_of(c), Contains("hinge gap in the nose from"));
  CHECK(std::any_of(c.doubts.begin(), c.doubts.end(),
                    [](const std::string& d) { return d.find("reckoned whole") != std::string::npos; }));
}

TEST_CASE("ribs that do not touch the cloth are read, one by one or all inner ones, and are not doubted for being low",
          "[case]") {
  const Case one = read_text(base() + "[[ribs.single]]\nnumber = 3\ntouches_cloth = false\n");
  for (size_t i = 0; i < one.ribs.size(); ++i) CHECK(one.ribs[i].touches_cloth == (i != 2));
  CHECK_THAT(survey_of(one), Contains("rib 3: lower than the profile"));
  const std::string thin =
      with(base(), "[ribs.inner]\nsection = { shape = \"tube\", outside_diameter = \"1/2 in\"",
           "[ribs.inner]\ntouches_cloth = false\nsection = { shape = \"tube\", outside_diameter = \"5 mm\"");
  const Case all = read_text(thin);
  for (size_t i = 0; i < all.ribs.size(); ++i) CHECK(all.ribs[i].touches_cloth == (i == 0 || i + 1 == all.ribs.size()));
  for (const std::string& doubt : all.doubts) CHECK_THAT(doubt, !Contains("would not touch"));
}

TEST_CASE("an order cannot name a zone whose cloth is cut out, and need not", "[order]") {
  Panel p;
  p.bays = 2;
  p.strips = 2;
  p.zone_at = {0, 1, 2, -1, 3, 4, 5, -1};  // the second strip of the second bay is cut out, above and below
  Case c;
  c.file = "case.toml";
  OrderFile order;
  const auto step = [](Side side, int bay, int strip) { return OrderStep{400, 1, side, bay, strip, 1}; };
  for (Side side : {Side::top, Side::bottom})
    order.steps.insert(order.steps.end(), {step(side, 1, 1), step(side, 1, 2), step(side, 2, 1)});
  CHECK(check_order(order, "order.toml", c, p).empty());
  order.steps.push_back(step(Side::top, 2, 2));
  CHECK_THROWS_WITH(check_order(order, "order.toml", c, p), Contains("cut out"));
}
