// What a person can get wrong: each gets one sentence with file, line, key, value and what would be right.
#include "tests/app/case_text.hpp"

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

/// The template with one change, and what must be said about it.
struct Slip {
  const char* name;
  std::string from, to;
  std::string key;                 ///< key named
  std::string line_with;           ///< stands on the line named; "" = any line
  std::vector<std::string> words;  ///< in the message
};

void check(const Slip& s) {
  const auto text = with(base(), s.from, s.to);
  const auto e = complaint(text);
  INFO(s.name << "\n" << e.what());
  CHECK(e.key == s.key);
  CHECK_THAT(e.what(), Contains("case.toml:"));
  CHECK(e.place.line > 0);
  if (!s.line_with.empty()) CHECK(e.place.line == line_of(text, s.line_with));
  for (const auto& word : s.words) CHECK_THAT(e.what(), Contains(word));
  CHECK(std::string(e.what()).find("nan") == std::string::npos);
}

const std::string in_cloth = "class = \"medium\"";

}  // namespace

TEST_CASE("a missing file is named in one sentence", "[bad input]") {
  try {
    read_case("no-such-case.toml");
    FAIL("read");
  } catch (const CaseFileError& e) {
    CHECK_THAT(e.what(),
               Contains("no-such-case.toml") && Contains("cannot be opened") && Contains("evenpull template"));
  }
}

TEST_CASE("a folder instead of a file is named", "[bad input]") {
  const TemporaryFolder folder;
  CHECK_THROWS_WITH(read_case(folder.path.string()), Contains("this is a folder"));
}

TEST_CASE("a slip in the TOML is named with its line", "[bad input]") {
  const auto text = with(base(), "span = \"1800 mm\"", "span = 1800 mm");
  const auto e = complaint(text);
  CHECK(e.place.line == line_of(text, "span = 1800 mm"));
  CHECK_THAT(e.what(), Contains("write span = \"1800 mm\""));
}

TEST_CASE("a mistyped key is named with the nearest known one", "[bad input]") {
  check({"key", "span = \"1800 mm\"", "spann = \"1800 mm\"", "outline.spann", "spann", {"did you mean \"span\""}});
  check({"table", "\n[cloth]", "\n[clothes]", "clothes", "[clothes]", {"did you mean \"cloth\""}});
  check({"nothing near", in_cloth, in_cloth + "\npropeller = 2", "cloth.propeller", "propeller", {"known here"}});
  check({"word", in_cloth, "class = \"medum\"", "cloth.class", "medum", {"\"medum\"", "did you mean \"medium\""}});
  check({"member",
         "member = \"leading edge tube\"",
         "member = \"leading edge tub\"",
         "supports.while_ironed[1].member",
         "edge tub\"",
         {"names no member", "did you mean"}});
  check({"key that fits another shape",
         "wall = \"0.035 in\" }",
         "sheet = \"0.035 in\" }",
         "member[1].section.sheet",
         "",
         {"not known"}});
}

TEST_CASE("the wrong kind of unit says what was expected", "[bad input]") {
  check({"mass for length",
         "span = \"1800 mm\"",
         "span = \"1800 g\"",
         "outline.span",
         "1800 g",
         {"\"1800 g\"", "expected a length", "0.016 in"}});
  check({"no unit",
         "span = \"1800 mm\"",
         "span = 1800",
         "outline.span",
         "span = 1800",
         {"1800 has no unit", "a length"}});
  check(
      {"not a quantity", "span = \"1800 mm\"", "span = true", "outline.span", "span = true", {"true is not a length"}});
  check({"mass per area for pull",
         "[work]",
         "[limits]\npull_difference = \"2 oz/yd^2\"\n[work]",
         "limits.pull_difference",
         "2 oz",
         {"mass per area", "force per width"}});
}

TEST_CASE("negative and absurd values are refused with the usual range", "[bad input]") {
  check({"negative",
         "span = \"1800 mm\"",
         "span = \"-1800 mm\"",
         "outline.span",
         "-1800",
         {"\"-1800 mm\"", "must not be negative", "usually"}});
  check({"a wall of a metre",
         "wall = \"0.035 in\"",
         "wall = \"1 m\"",
         "member[1].section.wall",
         "wall = \"1 m\"",
         {"\"1 m\"", "usually 0.5 to 2 mm"}});
  check({"wall more than the radius",
         "wall = \"0.035 in\"",
         "wall = \"0.6 in\"",
         "member[1].section.wall",
         "0.6 in",
         {"half the outside diameter"}});
  check({"looseness of 50 %",
         in_cloth,
         in_cloth + "\nlooseness = \"50 %\"",
         "cloth.looseness",
         "50 %",
         {"usually 0.5 to 3 %"}});
  check({"infinite", in_cloth, in_cloth + "\npoisson = inf", "cloth.poisson", "poisson = inf", {"not a number"}});
  check({"cloth as heavy as carpet",
         in_cloth,
         "areal_mass = \"40 oz/yd^2\"",
         "cloth.areal_mass",
         "40 oz",
         {"usually has 50 to 130"}});
}

TEST_CASE("ribs out of order and off the panel are named", "[bad input]") {
  check({"order",
         "\"600 mm\", \"900 mm\"",
         "\"900 mm\", \"600 mm\"",
         "ribs.stations[4]",
         "stations = [",
         {"\"600 mm\"", "out of order"}});
  check({"not to the end",
         "\"1500 mm\", \"1800 mm\"]",
         "\"1500 mm\"]",
         "ribs.stations[6]",
         "stations = [",
         {"last rib must stand at the end of the outline"}});
  check({"not from the start",
         "stations = [\"0 mm\"",
         "stations = [\"10 mm\"",
         "ribs.stations[1]",
         "stations = [",
         {"inboard end rib"}});
  check({"rib number",
         "[ribs.end]",
         "[[ribs.single]]\nnumber = 9\njoints = \"pinned\"\n[ribs.end]",
         "ribs.single[1].number",
         "number = 9",
         {"= 9"}});
}

TEST_CASE("an outline that crosses itself is named", "[bad input]") {
  auto text = with(base(), "span = \"1800 mm\"", "leading_edge = [[\"0 mm\", \"0 mm\"], [\"400 mm\", \"1800 mm\"]]");
  text = with(text, "chord = \"350 mm\"", "trailing_edge = [[\"350 mm\", \"0 mm\"], [\"340 mm\", \"1800 mm\"]]");
  const auto e = complaint(text);
  CHECK(e.key == "outline.trailing_edge");
  CHECK_THAT(e.what(), Contains("crosses itself"));
  CHECK(e.place.line == line_of(text, "trailing_edge = [["));
}

TEST_CASE("a profile whose stations fall back or stop short is named", "[bad input]") {
  check({"falls",
         "at     = [\"0 mm\", \"100 mm\"",
         "at     = [\"0 mm\", \"0 mm\"",
         "profile.at[2]",
         "at     =",
         {"must rise"}});
  check({"short",
         "at     = [\"0 mm\", \"100 mm\", \"350 mm\"]",
         "at     = [\"0 mm\", \"100 mm\", \"340 mm\"]",
         "profile.at",
         "at     =",
         {"trailing edge"}});
  check({"count",
         "height = [\"13 mm\", \"11 mm\", \"6 mm\"]",
         "height = [\"13 mm\", \"11 mm\"]",
         "profile.height",
         "height =",
         {"2 heights for 3 chord stations"}});
}

TEST_CASE("supports must be stated for ironing and for use", "[bad input]") {
  auto text = base();
  const auto from = text.find("[[supports.in_use]]");
  const auto in_use = text.substr(from, text.find("[cloth]") - from);
  const auto without = with(text, in_use, "");
  CHECK(complaint(without).key == "supports.in_use");
  CHECK_THAT(complaint(without).what(), Contains("is missing") && Contains("both"));
  const auto at = without.find("[[supports.while_ironed]]");
  const auto none = without.substr(0, at) + without.substr(without.find("[cloth]"));
  CHECK(complaint(none).key == "supports");
  CHECK_THAT(complaint(none).what(), Contains("both must be stated"));
  check({"beyond the tip",
         "at = \"1500 mm\"",
         "at = \"2500 mm\"",
         "supports.in_use[2].at",
         "2500",
         {"beyond the last rib"}});
  check({"two words",
         "as = \"clamp\"",
         "as = \"clamp\"\nholds = [\"x\"]",
         "supports.while_ironed[1].holds",
         "holds",
         {"one of the two"}});
}

TEST_CASE("members that contradict each other are named", "[bad input]") {
  check({"no trailing edge",
         "role = \"trailing edge\"",
         "role = \"spar\"\nat = \"90 %\"",
         "member[2]",
         "[[member]]\nname = \"trailing",
         {"role = \"trailing edge\"", "exactly one"}});
  check({"unknown material",
         "material = \"6061-T6 tube\"",
         "material = \"6061-T7 tube\"",
         "member[1].material",
         "6061-T7",
         {"6061-T7", "2024-T3 sheet", "own"}});
  check({"spar nowhere",
         "[[member]]\nname = \"trailing",
         "[[member]]\nname = \"s\"\nrole = \"spar\"\nsection = { shape = \"tube\", outside_diameter = \"1 in\", wall = "
         "\"0.035 in\" }\nmaterial = \"4130 tube\"\n[[member]]\nname = \"trailing",
         "member[2].at",
         "[[member]]\nname = \"s\"",
         {"is missing"}});
}

TEST_CASE("free shrink too small for the pull is refused with the three numbers", "[bad input]") {
  check({"shrink",
         in_cloth,
         "areal_mass = \"92 g/m^2\"\nstiffness = \"20 kN/m\"\ncurve = [{ temperature = \"80 degC\", free_shrink = 0, "
         "pull = \"0 N/m\" },\n"
         "{ temperature = \"350 degF\", free_shrink = \"3 %\", pull = \"900 N/m\" }]",
         "cloth.curve[2]",
         "free_shrink = \"3 %\"",
         {"3 %", "900 N/m", "20 kN/m", "too small"}});
}

TEST_CASE("stages that are too hot, unknown or out of order are refused", "[bad input]") {
  check({"above 400",
         "temperature = \"350 degF\"",
         "temperature = \"410 degF\"",
         "stage[3].temperature",
         "410",
         {"above 400", "never"}});
  check({"beyond the cloth's data",
         "temperature = \"350 degF\"",
         "temperature = \"370 degF\"",
         "stage[3].temperature",
         "370",
         {"hottest point of cloth.curve"}});
  check({"falling",
         "temperature = \"300 degF\"\npasses",
         "temperature = \"240 degF\"\npasses",
         "stage[2].temperature",
         "240",
         {"not hotter than the stage before"}});
  check({"cold",
         "temperature = \"250 degF\"\npasses",
         "temperature = \"70 degC\"\npasses",
         "stage[1].temperature",
         "70 degC",
         {"does not shrink"}});
  check({"dose above 1",
         "[\"light\", \"light\", \"full\"]",
         "[0.2, 1.5]",
         "stage[1].passes[2]",
         "1.5",
         {"1.5", "at most 1"}});
  check({"dose of nothing", "[\"light\", \"light\", \"full\"]", "[0]", "stage[1].passes[1]", "[0]", {"more than 0"}});
  check({"word",
         "[\"light\", \"light\", \"full\"]",
         "[\"gentle\"]",
         "stage[1].passes[1]",
         "gentle",
         {"\"light\", \"full\""}});
}

TEST_CASE("a stage above 375 F that the cloth's data reach is a doubt, not an error", "[bad input]") {
  auto text =
      with(base(), in_cloth,
           "areal_mass = \"92 g/m^2\"\ncurve = [{ temperature = \"80 degC\", free_shrink = 0, pull = \"0 N/m\" },\n"
           "{ temperature = \"400 degF\", free_shrink = \"10 %\", pull = \"900 N/m\" }]");
  CHECK(case_of(text).doubts.empty());
  text = with(text, "[[stage]]\ntemperature = \"350 degF\"", "[[stage]]\ntemperature = \"380 degF\"");
  const auto doubts = case_of(text).doubts;
  REQUIRE(doubts.size() == 2);  // the other is the swing, which takes it above 400
  CHECK_THAT(doubts[0], Contains("375"));
}

TEST_CASE("a format of another time and a file without one are refused", "[bad input]") {
  check({"other", "format = 1", "format = 7", "format", "format = 7", {"= 7", "reads format 1"}});
  const auto e = complaint(with(base(), "format = 1", ""));
  CHECK(e.key == "format");
  CHECK_THAT(e.what(), Contains("is missing"));
}

TEST_CASE("what belongs to a full wrap is refused with two sheets", "[bad input]") {
  check({"wrap",
         "kind = \"full wrap\"",
         "kind = \"two sheets\"\nwrap_angle = \"170 deg\"",
         "blanket.wrap_angle",
         "wrap_angle = \"170 deg\"\n",
         {"full wrap"}});
}
