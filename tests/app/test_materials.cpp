// Materials by name and by number, what is left of them beside a weld, limits of bow and coats: what a case may say of them.
#include "app/input/case_parts.hpp"
#include "app/input/materials.hpp"
#include "tests/app/case_text.hpp"

#include <algorithm>

using namespace evenpull;
using namespace evenpull_test;
using Catch::Matchers::Contains;

namespace {

const std::string first_tube = "outside_diameter = \"1 in\", wall = \"0.035 in\" }\nmaterial = \"6061-T6 tube\"";

std::string tube_of(const std::string& wall, const std::string& material) {
  return "outside_diameter = \"1 in\", wall = \"" + wall + "\" }\nmaterial = \"" + material + "\"";
}

const Material& of_leading_edge(const Case& c) {
  return c.materials[static_cast<size_t>(c.span_members.front().make.material)];
}

Material leading_edge_of(const std::string& wall, const std::string& material) {
  return of_leading_edge(case_of(with(base(), first_tube, tube_of(wall, material))));
}

/// The template with its leading edge of a material described like this.
std::string of_my_tube(const std::string& lines) {
  return with(base(), first_tube, tube_of("0.035 in", "my tube")) +
         "\n[materials.\"my tube\"]\nyoungs_modulus = \"200 GPa\"\nshear_modulus = \"77 GPa\"\n" + lines;
}

bool has_default(const Case& c, const std::string& key) {
  return std::any_of(c.defaults_used.begin(), c.defaults_used.end(), [&](const auto& d) { return d.key == key; });
}

std::string said_of(const std::string& text) { return complaint(text).what(); }

}  // namespace

TEST_CASE("the yield of normalised 4130 goes with the wall, and that of 4130 of no stated condition stays low",
          "[case]") {
  // 75 and 70 ksi, 50 ksi: docs/data.md, from memory.
  CHECK(leading_edge_of("0.028 in", "4130 tube, normalised").strength == 517e6);
  CHECK(leading_edge_of("0.035 in", "4130 tube, normalised").strength == 517e6);
  CHECK(leading_edge_of("0.9 mm", "4130 tube, normalised").strength == 517e6);
  CHECK(leading_edge_of("0.049 in", "4130 tube, normalised").strength == 483e6);
  CHECK(leading_edge_of("0.049 in", "4130 Tube Normalised").strength == 483e6);
  CHECK(leading_edge_of("0.035 in", "4130 tube").strength == 345e6);
  CHECK(leading_edge_of("0.035 in", "4130 tube, annealed").strength == 345e6);
  CHECK(leading_edge_of("0.028 in", "4130 tube, normalised").welded_strength == 392e6);
}

TEST_CASE("a thin and a thick tube of one case are two materials, each with its own line among the defaults",
          "[case]") {
  auto text = with(base(), first_tube, tube_of("0.049 in", "4130 tube, normalised"));
  text = with(text, "material = \"6061-T6 tube\"", "material = \"4130 tube, normalised\"");  // the trailing edge
  const Case c = case_of(text);
  CHECK(of_leading_edge(c).strength == 483e6);
  CHECK(c.materials[static_cast<size_t>(c.span_members.back().make.material)].strength == 517e6);
  CHECK(has_default(c, "materials.\"4130 tube, normalised\""));
  CHECK(has_default(c, "materials.\"4130 tube, normalised, wall over 0.035 in\""));
}

TEST_CASE("no material known by name bears more pressed or welded than its strength allows", "[case]") {
  for (const auto& known : known_materials()) {
    const Material& m = known.values;
    INFO(m.name);
    CHECK(m.compression_strength <= m.strength);
    CHECK((m.kind == Strength::rupture) == (m.lasting_movement > 1));
    if (m.kind == Strength::rupture) CHECK(m.welded_strength == 0);
    CHECK(find_material(known.name(), 0) != nullptr);
    CHECK(find_material(m.name, known.up_to_wall)->values.strength == m.strength);
  }
}

TEST_CASE("a material of one's own says what it bears pressed and beside a weld, and what it gives in time", "[case]") {
  const Material m = of_leading_edge(case_of(
      of_my_tube("yield = \"500 MPa\"\ncompression = \"480 MPa\"\nwelded = \"390 MPa\"\nweld_reach = \"20 mm\"\n")));
  CHECK(m.compression_strength == 480e6);
  CHECK(m.welded_strength == 390e6);
  CHECK(m.weld_reach == Approx(0.02));
  CHECK(m.lasting_movement == 1);
  const Material wood = of_leading_edge(case_of(of_my_tube("rupture = \"60 MPa\"\n")));
  CHECK(wood.lasting_movement == wood_lasting);
  CHECK(of_leading_edge(case_of(of_my_tube("rupture = \"60 MPa\"\nlasting = 1.5\n"))).lasting_movement == 1.5);
}

TEST_CASE("a stated yield never lifts what is known of compression and welds", "[case]") {
  const auto own = [&](const std::string& yield) {
    return of_leading_edge(case_of(base() + "\n[materials.\"6061-T6 tube\"]\nyield = \"" + yield + "\"\n"));
  };
  CHECK(own("300 MPa").welded_strength == 105e6);
  CHECK(own("300 MPa").compression_strength == 234e6);
  CHECK(own("200 MPa").compression_strength == 0);  // as the yield itself
}

TEST_CASE("what makes no sense of a material, of hinges or of coats is told", "[bad input]") {
  CHECK_THAT(said_of(of_my_tube("yield = \"300 MPa\"\nwelded = \"390 MPa\"\n")),
             Contains("materials.my tube.welded") && Contains("no metal stronger"));
  CHECK_THAT(said_of(of_my_tube("rupture = \"60 MPa\"\nwelded = \"30 MPa\"\n")),
             Contains("materials.my tube.welded") && Contains("only for metal"));
  CHECK_THAT(said_of(of_my_tube("rupture = \"60 MPa\"\nlasting = 0.5\n")), Contains("materials.my tube.lasting"));
  CHECK_THAT(said_of(of_my_tube("yield = \"300 MPa\"\ncompression = 250\n")),
             Contains("materials.my tube.compression") && Contains("no unit"));
  CHECK_THAT(said_of(of_my_tube("yield = \"300 MPa\"\ncompresion = \"250 MPa\"\n")),
             Contains("did you mean \"compression\""));
  const auto hinges = [](const std::string& text) {
    return with(with(text, "role = \"leading edge\"", "role = \"leading edge\"\nhinge_line = true"),
                "role = \"trailing edge\"", "role = \"trailing edge\"\nhinge_line = true");
  };
  CHECK_THAT(said_of(hinges(base())), Contains("member[2].hinge_line") && Contains("leading edge tube"));
  CHECK_THAT(said_of(with(base(), "[work]", "[work]\nfinish = \"shrinking\"")),
             Contains("work.finish") && Contains("tautening"));
  CHECK_THAT(said_of(base() + "\n[limits]\nhinge_line_bow = \"2 in\"\n"), Contains("limits.hinge_line_bow"));
}

TEST_CASE("a case says which coats come, on which member the hinges sit and how much they may bow", "[case]") {
  CHECK(case_of(base()).finish == FinishKind::unstated);
  CHECK(case_of(with(base(), "[work]", "[work]\nfinish = \"tautening\"")).finish == FinishKind::tautening);
  CHECK(case_of(with(base(), "[work]", "[work]\nfinish = \"not tautening\"")).finish == FinishKind::not_tautening);
  const Case c = case_of(with(base(), "role = \"leading edge\"", "role = \"leading edge\"\nhinge_line = true") +
                         "\n[limits]\nhinge_line_bow = \"1/16 in\"\nwhole_edge_bow = 0.004\n");
  CHECK(c.span_members.front().hinge_line);
  CHECK_FALSE(c.span_members.back().hinge_line);
  CHECK(c.limits.hinge_line_bow == Approx(1.5875e-3));
  CHECK(c.limits.whole_edge_bow == 0.004);
}

TEST_CASE("a bow of a sixteenth of an inch is no matter unless a share of the spacing was asked for alone", "[case]") {
  const Limits usual = case_of(base()).limits;
  CHECK(usual.bow_per_spacing == 0.005);
  CHECK(usual.least_bow == Approx(1.5875e-3));
  CHECK(usual.hinge_line_bow == 0);
  CHECK(usual.whole_edge_bow == 0);
  CHECK(case_of(base() + "\n[limits]\nbow_per_spacing = 0.01\n").limits.least_bow == 0);
  CHECK(case_of(base() + "\n[limits]\nbow_per_spacing = 0.01\nleast_bow = \"1 mm\"\n").limits.least_bow == 1e-3);
}

TEST_CASE("a welded metal of which nobody says what is left beside a weld keeps as little as 6061-T6, with a doubt",
          "[case]") {
  Case c = case_of(of_my_tube("yield = \"241 MPa\"\n"));
  Entry nothing;
  nothing.kind = Entry::Kind::table;
  CaseContext context("case.toml", nothing);
  fill_welds(context, c);
  CHECK(of_leading_edge(c).welded_strength == 0);  // nothing is welded
  CHECK(context.doubts.empty());
  c.ribs[1].front_joint.kind = JointKind::welded;
  fill_welds(context, c);
  CHECK(of_leading_edge(c).welded_strength == Approx(105e6));
  CHECK(c.materials[static_cast<size_t>(c.ribs[1].make.material)].welded_strength == 105e6);
  REQUIRE(context.doubts.size() == 1);
  CHECK_THAT(context.doubts.front(), Contains("my tube") && Contains("44 %"));
  REQUIRE(context.defaults_used.size() == 1);
  CHECK(context.defaults_used.front().key == "materials.\"my tube\".welded");
}
