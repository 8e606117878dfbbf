#include "app/input/cloth_defaults.hpp"
#include "tests/app/case_text.hpp"

#include <algorithm>
#include <cmath>

using namespace evenpull;
using namespace evenpull_test;

namespace {
bool has_default(const Case& c, const std::string& key) {
  return std::any_of(c.defaults_used.begin(), c.defaults_used.end(), [&](const auto& d) { return d.key == key; });
}
}  // namespace

TEST_CASE("the template reads as what it says", "[case]") {
  const auto c = case_of(base());
  CHECK(c.title == "Left aileron");
  CHECK_FALSE(c.invented);
  CHECK(c.outline.span() == 1.8);
  REQUIRE(c.span_members.size() == 2);
  CHECK(c.span_members.back().role == SpanRole::trailing_edge);
  CHECK(c.span_members.back().chord_fraction == 1);
  CHECK(c.ribs.size() == 7);
  CHECK(c.while_ironed.size() == 2);
  CHECK(c.in_use.size() == 3);
  REQUIRE(c.stages.size() == 3);
  CHECK(c.stages[0].doses == std::vector<double>{0.25, 0.25, 1});
  CHECK(c.stages[2].temperature == c.cloth.curve.back().temperature);
  CHECK(c.limits.yield_share == 0.5);
  CHECK_FALSE(c.limits.pull_difference.has_value());
}

TEST_CASE("every default that steps in is written down with a reason, and none that does not", "[case]") {
  const auto c = case_of(base());
  for (const auto* key : {"cloth.curve", "cloth.looseness", "iron.swing", "limits.slip", "materials.\"6061-T6 tube\"",
                          "blanket.wrap_angle"})
    CHECK(has_default(c, key));
  for (const auto& d : c.defaults_used) {
    CHECK_FALSE(d.value.empty());
    CHECK_FALSE(d.why.empty());
  }
  const auto stated = case_of(with(base(), "class = \"medium\"", "class = \"medium\"\nlooseness = \"2 %\""));
  CHECK_FALSE(has_default(stated, "cloth.looseness"));
  CHECK(stated.cloth.looseness.warp == 0.02);
}

TEST_CASE("pull and stiffness of an unknown cloth go with its weight", "[case]") {
  const auto light = case_of(with(base(), "class = \"medium\"", "areal_mass = \"46 g/m^2\"")).cloth;
  CHECK(light.stiffness.warp == Approx(cloth_defaults::stiffness / 2));
  CHECK(light.curve.back().pull.fill == Approx(450));
  CHECK(light.curve[1].pull.warp == Approx(210));  // 420 N/m at 250 degF for 92 g/m^2: docs/data.md
  CHECK(light.curve.back().free_shrink.fill == 0.10);
}

TEST_CASE("a cloth may be stated yarn by yarn and point by point", "[case]") {
  const auto c = case_of(
      with(base(), "class = \"medium\"",
           "areal_mass = \"2.7 oz/yd^2\"\nstiffness = { warp = \"120 kN/m\", fill = \"80 kN/m\" }\ncurve = [\n"
           "{ temperature = \"80 degC\", free_shrink = \"0 %\", pull = \"0 N/m\" },\n"
           "{ temperature = \"350 degF\", free_shrink = { warp = \"9 %\", fill = \"8 %\" }, pull = \"4 lb/in\" } ]"));
  CHECK(c.cloth.stiffness.warp == 120e3);
  CHECK(c.cloth.stiffness.fill == 80e3);
  REQUIRE(c.cloth.curve.size() == 2);
  CHECK(c.cloth.curve[1].free_shrink.fill == 0.08);
}

TEST_CASE("support words hold what they say", "[case]") {
  const auto hold = [](const std::string& as) {
    return case_of(with(base(), "as = \"clamp\"", as)).while_ironed.front().hold;
  };
  using Hold = std::array<bool, 6>;
  CHECK(hold("as = \"clamp\"") == Hold{true, true, true, true, true, true});
  CHECK(hold("as = \"hinge\"") == Hold{true, true, true, false, false, false});
  CHECK(hold("as = \"sliding hinge\"") == Hold{true, false, true, false, false, false});
  CHECK(hold("as = \"rest\"") == Hold{false, false, true, false, false, false});
  CHECK(hold("as = \"horn\"") == Hold{false, false, false, false, true, false});
  CHECK(hold("holds = [\"x\", \"turn z\"]") == Hold{true, false, false, false, false, true});
}

TEST_CASE("single ribs, braces and a tip bow are read", "[case]") {
  const std::string tube =
      "section = { shape = \"tube\", outside_diameter = \"5/8 in\", wall = \"0.035 in\" }\nmaterial = \"4130 tube\"\n";
  const auto c = case_of(base() + "\n[[ribs.single]]\nnumber = 4\njoints = \"pinned\"\n" + tube +
                         "[[brace]]\nfrom = { member = \"leading edge tube\", rib = 1 }\nto = { member = \"trailing "
                         "edge tube\", rib = 2 }\n" +
                         tube + "[tip_bow]\ndepth = \"150 mm\"\nthickness = \"16 mm\"\n" + tube);
  CHECK(c.ribs[3].make.shape.outside_diameter == Approx(0.015875));
  CHECK(c.ribs[3].rear_joint.kind == JointKind::pinned);
  CHECK(c.ribs[2].rear_joint.kind == JointKind::rigid);
  REQUIRE(c.braces.size() == 1);
  CHECK(c.braces[0].to_rib == 1);
  CHECK(c.outline.tip_bow_depth == 0.15);
  REQUIRE(c.tip_bow);
  CHECK(c.materials[static_cast<size_t>(c.tip_bow->material)].name == "4130 tube");
}

TEST_CASE("an outline by points is the same panel as one by chords", "[case]") {
  const auto chords = case_of(with(base(), "chord = \"350 mm\"", "chord = \"350 mm\"\ntip_chord = \"300 mm\""));
  const auto points =
      case_of(with(with(base(), "span = \"1800 mm\"", "leading_edge = [[\"0 mm\", \"0 mm\"], [\"0 mm\", \"1800 mm\"]]"),
                   "chord = \"350 mm\"", "trailing_edge = [[\"350 mm\", \"0 mm\"], [\"300 mm\", \"1800 mm\"]]"));
  for (size_t i = 0; i < 2; ++i) {
    CHECK(chords.outline.trailing_edge[i].x == points.outline.trailing_edge[i].x);
    CHECK(chords.outline.leading_edge[i].y == points.outline.leading_edge[i].y);
  }
}

TEST_CASE("a key of the case leads back to its line, a missing one to its table", "[case]") {
  const TemporaryFolder folder;
  const auto file = read_case_file(folder.write("case.toml", base()));
  CHECK(file.place_of("cloth.class").line == line_of(base(), "class = \"medium\""));
  CHECK(file.place_of("supports.while_ironed").line == line_of(base(), "[[supports.while_ironed]]"));
  CHECK(file.place_of("cloth.shear").line == line_of(base(), "\n[cloth]") + 1);
  CHECK(file.place_of("no such thing").line == line_of(base(), "both_sides_reachable"));  // where it would be added
}

TEST_CASE("what is possible but unusual is a doubt", "[case]") {
  CHECK(case_of(base()).doubts.empty());
  const auto doubts = [](const std::string& from, const std::string& to) {
    return case_of(with(base(), from, to)).doubts.size();
  };
  CHECK(doubts("\"600 mm\", ", "") == 1);
  const auto thick = case_of(with(base(), "height = [\"13 mm\", \"11 mm\"", "height = [\"13 mm\", \"60 mm\"")).doubts;
  CHECK(std::any_of(thick.begin(), thick.end(),
                    [](const std::string& d) { return d.find("34.3 % of its chord thick") != std::string::npos; }));
  CHECK(doubts("class = \"medium\"", "class = \"medium\"\nlooseness = \"4 %\"") == 1);
  CHECK(doubts("[\"light\", \"light\", \"full\"]", "[\"light\"]") == 1);
  // 3 % loose, and a first stage whose one light pass takes up 1.2 % at most.
  const auto hardly =
      case_of(with(with(base(), "class = \"medium\"", "class = \"medium\"\nlooseness = \"3 %\""),
                   base().substr(base().find("[[stage]]"), base().find("[work]") - base().find("[[stage]]")),
                   "[[stage]]\ntemperature = \"250 degF\"\npasses = [\"light\"]\n"));
  CHECK(std::any_of(hardly.doubts.begin(), hardly.doubts.end(), [](const std::string& d) {
    return d.find("LOOSE CLOTH") == 0 && d.find("warp and the fill") != std::string::npos;
  }));
  // 250 degF shrinks it by 5 % and leaves it loose at the setting; full passes under an iron that swings meet the top of the swing, as the plan counts.
  const auto one_stage = [&](const std::string& swing) {
    const auto text = with(with(base(), "class = \"medium\"", "class = \"medium\"\nlooseness = \"5.3 %\""),
                           base().substr(base().find("[[stage]]"), base().find("[work]") - base().find("[[stage]]")),
                           "[iron]\nswing = \"" + swing +
                               "\"\n[[stage]]\ntemperature = \"250 degF\"\n"
                               "passes = [\"full\", \"full\", \"full\"]\n");
    const auto c = case_of(text).doubts;
    return std::any_of(c.begin(), c.end(), [](const std::string& d) { return d.find("LOOSE CLOTH") == 0; });
  };
  CHECK(one_stage("1 degF"));
  CHECK_FALSE(one_stage("50 degF"));
  CHECK(doubts("[work]", "[iron]\nswing = \"60 degF\"\n[work]") == 1);
  CHECK(doubts("temperature = \"350 degF\"", "temperature = \"340 degF\"") == 0);
  CHECK(case_of(with(with(base(), "[work]", "[work]\napproved_last_stage = \"350 degF\""), "temperature = \"350 degF\"",
                     "temperature = \"340 degF\""))
            .doubts.size() == 1);
}
