// Sections in words and drawn. Sizes invented.
#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/pictures/survey_picture.hpp"
#include "viz/words/record_words.hpp"
#include "viz/words/section_words.hpp"
#include "viz/words/survey_text.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::reading;
using Catch::Matchers::Contains;
using Kind = SectionShape::Kind;

namespace {

SectionShape of_kind(Kind kind) {
  SectionShape s;
  s.kind = kind;
  s.outside_diameter = 0.02;
  s.wall = kind == Kind::i_section || kind == Kind::capstrip_rib || kind == Kind::truss_rib ? 0.005 : 0.0008;
  s.width = 0.018;
  s.height = 0.02;
  s.flange = 0.008;
  s.web = 0.003;
  if (kind == Kind::truss_rib) s.hole_spacing = 0.05;
  return s;
}

/// The sample with every kind of section on one of its ribs, bends, lips, holes and a step included.
Case with_every_section() {
  Case c = sample_case();
  const std::vector<Kind> kinds = {Kind::bar,   Kind::sheet_rib, Kind::folded_edge, Kind::channel,
                                   Kind::angle, Kind::triangle,  Kind::hat};
  for (std::size_t i = 0; i < c.ribs.size() && i < kinds.size(); ++i) c.ribs[i].make.shape = of_kind(kinds[i]);
  SectionShape& rib = c.ribs[1].make.shape;
  rib.lip = 0.004, rib.fold_radius = 0.002, rib.hole = 0.01, rib.hole_spacing = 0.03;
  c.span_members[0].make.changes = {{0.9, of_kind(Kind::i_section)}, {1.2, of_kind(Kind::truss_rib)}};
  c.span_members[1].make.shape = of_kind(Kind::capstrip_rib);
  return c;
}

}  // namespace

TEST_CASE("each section is drawn once, with who has it and its sizes") {
  Folder folder;
  const Case c = with_every_section();
  write_survey_picture(c, sample_panel(c), folder / "survey.pdf");
  const auto all = pages(folder / "survey.pdf");
  REQUIRE(all.size() == 1);
  for (const char* part : {"each to its own scale", "channel", "angle", "hat", "triangular edge", "capstrip", "truss",
                           "lips 4 mm", "20 mm (0.787 in)", "10 mm"})
    CHECK(all[0].find(part) != std::string::npos);
  write_survey_picture(c, sample_panel(c), folder / "survey.png");
  CHECK(image(folder / "survey.png").white_share < 0.97);
}

TEST_CASE("a picture of many sections draws the first and counts the rest") {
  Folder folder;
  Case c = sample_case();
  SectionShape tube = of_kind(Kind::tube);
  for (int i = 0; i < 30; ++i) {
    tube.outside_diameter += 0.0005;
    c.braces.push_back({"brace " + std::to_string(i), {tube, 0}, 0, 0, 1, 0});
  }
  write_survey_picture(c, sample_panel(c), folder / "survey.pdf");
  CHECK_THAT(pages(folder / "survey.pdf")[0], Contains("more are not drawn"));
}

TEST_CASE("ribs that are made alike are named in a row, and no number is a power of ten") {
  const Case c = sample_case();
  std::string carriers;
  for (const auto& s : shown_sections(c)) {
    carriers += s.carriers + "; ";
    CHECK_THAT(section_numbers_text(s.section), !Contains("e+") && Contains("I flat"));
  }
  CHECK_THAT(carriers, Contains("ribs 1"));
  const auto text = survey_text(with_every_section(), sample_panel(c), {}, {}, 2, "out");
  CHECK_THAT(text,
             Contains("Sections as they are reckoned") && Contains("its lightening holes") && Contains("truss rib"));
  CHECK_THAT(text, Contains("bends most easily about an axis askew"));
}

TEST_CASE("what is uncertain of a section stands once on the record of a plan, and nothing where all is plain theory") {
  Plan plan = sample_plan();
  const auto plain = viz::limits_of_validity(plan).size();
  SectionShape truss = of_kind(Kind::truss_rib);
  plan.the_case.ribs[1].make.shape = plan.the_case.ribs[3].make.shape = truss;
  const auto list = viz::limits_of_validity(plan);
  REQUIRE(list.size() == plain + 1);
  CHECK_THAT(list.back(), Contains("truss rib") && Contains("± 20 %") && Contains("not judged"));
}
