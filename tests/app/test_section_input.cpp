// Sections as a mechanic states them: every shape is read with its sizes, said back as typed, and doubted where it
// looks like a slip. Sizes invented.
#include "app/output/survey_json.hpp"
#include "tests/app/case_text.hpp"
#include "viz/words/section_words.hpp"

#include <nlohmann/json.hpp>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

constexpr double mm = 1e-3, inch = 25.4e-3;

/// The template with a spar at 30 % of the chord, where the panel is 21.8 mm deep.
std::string spar_of(const std::string& section, const std::string& material = "2024-T3 sheet") {
  return with(base(), "[[member]]\nname = \"trailing edge tube\"",
              "[[member]]\nname = \"spar\"\nrole = \"spar\"\nat = \"30 %\"\nsection = { " + section +
                  " }\nmaterial = \"" + material + "\"\n\n[[member]]\nname = \"trailing edge tube\"");
}

MemberMake read_spar(const std::string& section) { return case_of(spar_of(section)).span_members[1].make; }

std::string only_doubt_of(const std::string& text) {
  const auto all = case_of(text).doubts;
  REQUIRE(all.size() == 1);
  return all[0];
}

}  // namespace

TEST_CASE("every shape of the trade is read with the sizes that a tape gives", "[sections]") {
  using Kind = SectionShape::Kind;
  const auto channel =
      read_spar(
          "shape = \"channel\", sheet = \"0.032 in\", flange = \"1/2 in\", height = \"20 mm\", bend_radius = \"2 mm\"")
          .shape;
  CHECK(channel.kind == Kind::channel);
  CHECK(channel.wall == Approx(0.032 * inch));
  CHECK(channel.width == Approx(inch / 2));
  CHECK(channel.height == Approx(20 * mm));
  CHECK(channel.fold_radius == Approx(2 * mm));
  const auto angle = read_spar("shape = \"angle\", sheet = \"2 mm\", width = \"20 mm\", height = \"15 mm\"").shape;
  CHECK(angle.kind == Kind::angle);
  CHECK(angle.width == Approx(20 * mm));
  CHECK(angle.height == Approx(15 * mm));
  const auto hat =
      read_spar("shape = \"hat\", sheet = \"0.6 mm\", width = \"20 mm\", height = \"12 mm\", flange = \"10 mm\"").shape;
  CHECK(hat.kind == Kind::hat);
  CHECK(hat.flange == Approx(10 * mm));
  const auto beam =
      read_spar("shape = \"I section\", width = \"1 in\", cap = \"1/4 in\", web = \"1/8 in\", height = \"18 mm\"");
  CHECK(beam.shape.kind == Kind::i_section);
  CHECK(beam.shape.wall == Approx(inch / 4));
  CHECK(beam.shape.web == Approx(inch / 8));
  CHECK(beam.web_material == -1);
  const auto edge = read_spar("shape = \"triangular edge\", width = \"30 mm\", height = \"12 mm\"").shape;
  CHECK(edge.kind == Kind::triangle);
  CHECK(edge.width == Approx(30 * mm));
  const auto truss =
      read_spar(
          "shape = \"truss rib\", width = \"1/4 in\", cap = \"1/4 in\", stick = \"3/16 in\", pitch = \"60 mm\", "
          "height = \"20 mm\"")
          .shape;
  CHECK(truss.kind == Kind::truss_rib);
  CHECK(truss.web == Approx(3.0 / 16 * inch));
  CHECK(truss.hole_spacing == Approx(60 * mm));
  const auto rib =
      read_spar(
          "shape = \"sheet rib\", sheet = \"0.5 mm\", flange = \"12 mm\", height = \"20 mm\", lip = \"4 mm\", "
          "bend_radius = \"1 mm\", hole_diameter = \"10 mm\", hole_spacing = \"30 mm\"")
          .shape;
  CHECK(rib.lip == Approx(4 * mm));
  CHECK(rib.hole == Approx(10 * mm));
  CHECK(rib.hole_spacing == Approx(30 * mm));
}

TEST_CASE("a web of another wood is found on the shelf of materials", "[sections]") {
  const auto c =
      case_of(spar_of("shape = \"capstrip rib\", width = \"1/2 in\", cap = \"3/16 in\", web = \"1/16 in\", height = "
                      "\"20 mm\", web_material = "
                      "\"birch plywood\"",
                      "Sitka spruce"));
  const MemberMake& spar = c.span_members[1].make;
  REQUIRE(spar.web_material >= 0);
  CHECK(c.materials[static_cast<size_t>(spar.web_material)].name == "birch plywood");
  CHECK(c.materials[static_cast<size_t>(spar.material)].name == "Sitka spruce");
  CHECK(print_make(spar, c) ==
        "capstrip rib, caps 1/2 in (12.7 mm) by 3/16 in (4.76 mm), web 1/16 in (1.59 mm), 20 mm (0.787 in) high, Sitka "
        "spruce, web of birch plywood");
}

TEST_CASE("a tube that changes is read with its stations and said with them", "[sections]") {
  const auto c = case_of(
      with(base(), "wall = \"0.035 in\" }",
           "wall = \"0.035 in\" }\nalong = [{ from = \"36 in\", section = { shape = \"tube\", outside_diameter = "
           "\"7/8 in\", wall = \"0.035 in\" } }]"));
  const auto& make = c.span_members[0].make;
  REQUIRE(make.changes.size() == 1);
  CHECK(make.changes[0].station == Approx(36 * inch));
  CHECK(make.changes[0].shape.outside_diameter == Approx(7.0 / 8 * inch));
  CHECK_THAT(print_make(make, c), Contains("; from 36 in (914.4 mm) on tube 7/8 in (22.2 mm) x 0.035 in (0.89 mm)"));
}

TEST_CASE("the survey lists each section once, with who has it and what is uncertain of it", "[sections]") {
  const auto c =
      case_of(with(spar_of("shape = \"angle\", sheet = \"2 mm\", width = \"20 mm\", height = \"15 mm\""),
                   "[ribs.inner]\nsection = { shape = \"tube\", outside_diameter = \"1/2 in\", wall = \"0.035 in\" }",
                   "[ribs.inner]\nsection = { shape = \"truss rib\", width = \"1/4 in\", cap = \"1/4 in\", stick = "
                   "\"3/16 in\", pitch = \"60 mm\" }"));
  const auto j = nlohmann::json::parse(survey_document(c, build_panel(c, {c.target_nodes}), {}, {}, "test"));
  const auto& sections = j["sections"];
  REQUIRE(sections.size() == 4);
  CHECK(sections[0]["of"] == "leading edge tube");
  CHECK(sections[1]["of"] == "spar");
  CHECK(sections[1]["inertia_up_mm4"] == sections[1]["inertia_flat_mm4"]);
  CHECK_THAT(sections[1]["notes"][0].get<std::string>(), Contains("axis askew"));
  CHECK(sections[2]["of"] == "trailing edge tube, ribs 1, 7");
  CHECK(sections[3]["of"] == "ribs 2 to 6");
  CHECK_THAT(sections[3]["make"].get<std::string>(), Contains("deep)"));
  CHECK_THAT(sections[3]["notes"][0].get<std::string>(), Contains("± 20 %"));
}

TEST_CASE("a section that looks like a slip is doubted with its sizes", "[sections]") {
  CHECK_THAT(only_doubt_of(
                 spar_of("shape = \"channel\", sheet = \"0.5 mm\", flange = \"12 mm\", height = \"20 mm\", bend_radius "
                         "= \"6 mm\"")),
             Contains("bent round a radius of 6 mm") && Contains("0.5 mm (0.020 in) thick"));
  CHECK_THAT(only_doubt_of(
                 spar_of("shape = \"sheet rib\", sheet = \"0.5 mm\", flange = \"8 mm\", height = \"20 mm\", lip = \"7 "
                         "mm\"")),
             Contains("lips of 7 mm") && Contains("flanges of 8 mm"));
  CHECK_THAT(only_doubt_of(spar_of(
                 "shape = \"I section\", width = \"5 mm\", cap = \"8 mm\", web = \"2 mm\", height = \"20 mm\"")),
             Contains("caps 8 mm (0.315 in) thick and only 5 mm (0.197 in) wide"));
  CHECK_THAT(only_doubt_of(spar_of("shape = \"channel\", sheet = \"1 mm\", flange = \"12 mm\", height = \"40 mm\"")),
             Contains("40 mm (1.57 in) deep") && Contains("stand out of the cloth"));
}
