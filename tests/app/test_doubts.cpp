// Slips that leave a case possible: each must be doubted, with its numbers as typed. Panels and sizes invented.
#include "app/command/commands.hpp"
#include "app/output/survey_json.hpp"
#include "tests/app/case_text.hpp"
#include "viz/words/section_words.hpp"

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

std::vector<std::string> doubts(const std::string& text) { return case_of(text).doubts; }

/// The one doubt of a case; the test fails if there is none, or more.
std::string only_doubt(const std::string& text) {
  const auto all = doubts(text);
  std::string joined;
  for (const auto& d : all) joined += d + "\n";
  INFO(joined);
  REQUIRE(all.size() == 1);
  return all[0];
}

std::string heights(const std::string& value) {
  return with(base(), "height = [\"13 mm\", \"11 mm\", \"6 mm\"]", value);
}

const std::string leading_tube = "outside_diameter = \"1 in\", wall = \"0.035 in\"",
                  half_inch = "outside_diameter = \"1/2 in\", wall = \"0.035 in\"";

/// The template with a spar at 30 % of the chord, where the panel is 21.8 mm deep.
std::string with_spar(const std::string& section, const std::string& more = "") {
  return with(base(), "[[member]]\nname = \"trailing edge tube\"",
              "[[member]]\nname = \"spar\"\nrole = \"spar\"\nat = \"30 %\"\nsection = { " + section +
                  " }\nmaterial = \"6061-T6 tube\"\n" + more + "\n[[member]]\nname = \"trailing edge tube\"");
}

std::string tube(const std::string& diameter, const std::string& wall = "0.035 in") {
  return "shape = \"tube\", outside_diameter = \"" + diameter + "\", wall = \"" + wall + "\"";
}

std::string ribs_of(const std::string& from, const std::string& table, const std::string& section) {
  const std::string old = "[ribs." + table + "]\nsection = { shape = \"tube\", " + half_inch + " }";
  return with(from, old, "[ribs." + table + "]\nsection = { " + section + " }");
}

std::string all_ribs(const std::string& section) { return ribs_of(ribs_of(base(), "end", section), "inner", section); }

}  // namespace

TEST_CASE("a profile that starts at 0 on a tube is doubted with both numbers and the fix", "[doubts]") {
  const auto d = only_doubt(heights("height = [\"0 mm\", \"13 mm\", \"6 mm\"]"));
  CHECK_THAT(d, Contains("measures 0 in (0 mm) at 0 % of the chord") && Contains("1 in (25.4 mm) deep") &&
                    Contains("1/2 in (12.7 mm), as the height there") && Contains("blanket.seam"));
  const auto edge = only_doubt(heights("height = [\"13 mm\", \"11 mm\", \"0 mm\"]"));
  CHECK_THAT(edge, Contains("at 100 % of the chord") && Contains("\"trailing edge tube\"") &&
                       Contains("1/2 in (12.7 mm) deep") && Contains("1/4 in (6.35 mm), as the last height"));
}

TEST_CASE("a profile from the front of the tube is right where the cloth leaves the tube behind it", "[doubts]") {
  const auto front = with(heights("height = [\"0 mm\", \"13 mm\", \"6 mm\"]"), "\"100 mm\"", "\"13 mm\"");
  CHECK(doubts(front).size() == 1);
  CHECK(doubts(with(front, "kind = \"full wrap\"", "kind = \"full wrap\"\nseam = \"13 mm\"")).empty());
}

TEST_CASE("heights typed as whole thicknesses leave a gap at an edge", "[doubts]") {
  const auto all = doubts(heights("height = [\"26 mm\", \"22 mm\", \"12 mm\"]"));
  REQUIRE(all.size() >= 2);
  CHECK_THAT(all[0],
             Contains("measures 52 mm (2.05 in)") && Contains("\"leading edge tube\" there is 1 in (25.4 mm) deep"));
}

TEST_CASE("a spar that stands out of the cloth or does not reach it is doubted", "[doubts]") {
  CHECK_THAT(only_doubt(with_spar(tube("1 in"))),
             Contains("\"spar\" is 1 in (25.4 mm) deep") && Contains("stand out of the cloth by 1.8 mm (0.071 in)"));
  CHECK_THAT(
      only_doubt(with_spar(tube("3/4 in"), "touches_cloth = true")),
      Contains("\"spar\" is to touch the cloth") && Contains("3/4 in (19.1 mm) deep") && Contains("above and below"));
  CHECK(doubts(with_spar(tube("3/4 in"))).empty());
  CHECK(doubts(with_spar(tube("7/8 in"), "touches_cloth = true")).empty());
}

TEST_CASE("a spar as deep as the panel touches the cloth, whatever the case says", "[doubts]") {
  CHECK_THAT(only_doubt(with_spar(tube("7/8 in"))), Contains("touches_cloth = true") && Contains("7/8 in (22.2 mm)"));
  CHECK_THAT(only_doubt(with_spar("shape = \"bar\", width = \"10 mm\"")), Contains("touches_cloth = true"));
  CHECK(doubts(with_spar("shape = \"bar\", width = \"10 mm\"", "touches_cloth = true")).empty());
}

TEST_CASE("a tapered panel may have a member that does not taper", "[doubts]") {
  const auto tapered = [](const std::string& tip) {
    return with(base(), "chord = \"350 mm\"",
                "chord = \"350 mm\"\nstraight_edge = \"leading edge\"\ntip_chord = \"" + tip + "\"");
  };
  CHECK(doubts(tapered("270 mm")).empty());
  CHECK_THAT(only_doubt(tapered("200 mm")), Contains("Heights go with the chord: at rib 7") &&
                                                Contains("\"trailing edge tube\" is 1/2 in (12.7 mm) all along"));
}

TEST_CASE("ribs that cannot touch the cloth, and ribs deeper than the panel, are doubted together", "[doubts]") {
  CHECK_THAT(only_doubt(all_ribs(tube("5/16 in"))),
             Contains("Ribs 1 to 7 are 5/16 in (7.94 mm) deep") && Contains("would not touch"));
  CHECK_THAT(only_doubt(all_ribs("shape = \"sheet rib\", sheet = \"0.5 mm\", flange = \"12 mm\", height = \"34 mm\"")),
             Contains("Ribs 1 to 7 are 34 mm (1.34 in) deep all along") && Contains("Leave height out"));
  CHECK(doubts(all_ribs("shape = \"sheet rib\", sheet = \"0.5 mm\", flange = \"12 mm\"")).empty());
}

TEST_CASE("a single height that slipped makes a hollow", "[doubts]") {
  const auto at =
      with(base(), "at     = [\"0 mm\", \"100 mm\", \"350 mm\"]", "at     = [\"0 %\", \"10 %\", \"30 %\", \"100 %\"]");
  const auto with_heights = [&](const std::string& h) { return with(at, "[\"13 mm\", \"11 mm\", \"6 mm\"]", h); };
  CHECK(doubts(with_heights("[\"13 mm\", \"13 mm\", \"12 mm\", \"6 mm\"]")).empty());
  CHECK_THAT(only_doubt(with_heights("[\"13 mm\", \"1.3 mm\", \"12 mm\", \"6 mm\"]")),
             Contains("At 10 % of the chord the panel is only 2.6 mm (0.102 in) thick"));
}

TEST_CASE("a slipped decimal point in a wall is doubted as it was typed", "[doubts]") {
  CHECK_THAT(only_doubt(with(base(), leading_tube, "outside_diameter = \"1 in\", wall = \"0.35 in\"")),
             Contains("a wall of 0.35 in (8.89 mm) in a tube of 1 in (25.4 mm)") && Contains("decimal point"));
  CHECK_THAT(only_doubt(with(base(), leading_tube, "outside_diameter = \"1 in\", wall = \"0.0065 in\"")),
             Contains("a wall of 0.0065 in (0.17 mm)"));
  CHECK_THAT(only_doubt(with(base(), leading_tube, "outside_diameter = \"1 in\", wall = \"0.25 in\"")),
             Contains("\"trailing edge tube\" has a wall of 0.035 in (0.89 mm), but \"leading edge tube\" one of 0.25 "
                      "in (6.35 mm), "
                      "7 times"));
  CHECK(doubts(with(base(), leading_tube, "outside_diameter = \"1 in\", wall = \"0.083 in\"")).empty());
}

TEST_CASE("millimetres typed as inches make a sheet that nobody uses", "[doubts]") {
  const auto sheet = [](const std::string& t) {
    return all_ribs("shape = \"sheet rib\", flange = \"12 mm\", sheet = \"" + t + "\"");
  };
  CHECK_THAT(only_doubt(sheet("0.5 in")), Contains("Rib 1 is of sheet 0.5 in (12.7 mm) thick"));
  CHECK(doubts(sheet("0.8 mm")).empty());
}

TEST_CASE("end ribs weaker than inner ribs are doubted", "[doubts]") {
  CHECK_THAT(only_doubt(ribs_of(base(), "inner", tube("5/8 in", "0.049 in"))),
             Contains("End rib 1") && Contains("exchanged"));
  CHECK(doubts(ribs_of(base(), "end", tube("5/8 in"))).empty());
}

TEST_CASE("a spar far weaker than the ribs, and a trailing edge far stiffer than all ahead of it, are doubted",
          "[doubts]") {
  CHECK_THAT(only_doubt(with_spar(tube("1/4 in", "0.022 in"))), Contains("\"spar\" is not a tenth as stiff as rib 1"));
  const auto stiff = with(base(), "section = { shape = \"tube\", " + half_inch + " }",
                          "section = { shape = \"bar\", width = \"40 mm\", height = \"12 mm\" }");
  CHECK_THAT(only_doubt(stiff),
             Contains("\"trailing edge tube\"") && Contains("times as stiff as \"leading edge tube\""));
}

TEST_CASE("a metal as soft as wood, or with a shear modulus that no metal has, is doubted", "[doubts]") {
  const auto own = [](const std::string& e, const std::string& g) {
    return base() + "\n[materials.\"6061-T6 tube\"]\nyoungs_modulus = \"" + e + "\"\nshear_modulus = \"" + g + "\"\n";
  };
  CHECK_THAT(only_doubt(own("6.9 GPa", "2.6 GPa")), Contains("6.9 GPa"));
  CHECK_THAT(only_doubt(own("69 GPa", "2.6 GPa")), Contains("shear_modulus of 2.6 GPa"));
  CHECK(doubts(own("69 GPa", "26 GPa")).empty());
}

TEST_CASE("a tip bow whose thickness is not that of its section is doubted", "[doubts]") {
  const auto bow = [](const std::string& thickness) {
    return base() + "\n[tip_bow]\ndepth = \"150 mm\"\nthickness = \"" + thickness +
           "\"\nmaterial = \"6061-T6 tube\"\nsection = { " + tube("3/8 in") + " }\n";
  };
  CHECK(doubts(bow("3/8 in")).empty());
  CHECK_THAT(only_doubt(bow("3/4 in")), Contains("3/4 in (19.1 mm) thick") && Contains("3/8 in (9.53 mm) deep"));
}

TEST_CASE("a tube rudder that is typed as the program takes it has no doubt", "[doubts]") {
  for (const char* name : {"three_ribs", "by_a_hair"}) {
    INFO(name);
    CHECK(read_case(EVENPULL_CASES_DIR "/../tests/cases/" + std::string(name) + ".toml").doubts.empty());
  }
  CHECK(doubts(with(heights("height = [\"1/2 in\", \"0.25 in\"]"), "\"100 mm\", ", "")).empty());
}

TEST_CASE("sizes come back in the words in which they were typed", "[doubts]") {
  const auto c =
      case_of(with(with(base(), leading_tube, "outside_diameter = \" 1  in \", wall = \"0.9 mm\""),
                   "[ribs.end]\nsection = { shape = \"tube\", " + half_inch + " }",
                   "[ribs.end]\nsection = { shape = \"sheet rib\", sheet = \"0.032 in\", flange = \"5/8 in\" }"));
  CHECK(print_make(c.span_members[0].make, c) == "tube 1 in (25.4 mm) x 0.9 mm (0.035 in), 6061-T6 tube");
  CHECK(print_make(c.span_members[1].make, c) == "tube 1/2 in (12.7 mm) x 0.035 in (0.89 mm), 6061-T6 tube");
  CHECK(print_make(c.ribs[0].make, c) ==
        "sheet rib 0.032 in (0.81 mm), flanges 5/8 in (15.9 mm), as deep as the panel, 6061-T6 tube");
}
