// Coats, sun and wood that gives in time: what is said of the time after the iron, and where.
#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/page/page.hpp"
#include "viz/sheet/sheet.hpp"
#include "viz/words/after_iron_words.hpp"
#include "viz/words/check_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/material_words.hpp"
#include "viz/words/plan_summary.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>

using Catch::Matchers::Contains;
using namespace evenpull;
using namespace evenpull::reading;

namespace {

Plan with_coats_that_tauten() {
  SampleWish none;
  none.no_ceiling = true;
  Plan plan = sample_plan(none);
  plan.the_case.finish = FinishKind::tautening;
  plan.advice = {};
  plan.advice.up_to = Advice::UpTo::coats_tauten;
  plan.advice.items = {advice::CoatsTauten{}, advice::StopAndAsk{}};
  for (StageSafety& s : plan.safety) s.lacking.push_back(Lacking::coats);
  return plan;
}

std::string joined(const std::vector<std::string>& all) {
  std::string text;
  for (const auto& s : all) text += s + "\n";
  return text;
}

void make_wooden(Case& c) {
  for (Material& m : c.materials) m.lasting_movement = 2;
}

}  // namespace

TEST_CASE("coats that tauten get NO VERDICT on the first page, on the terminal and in the page") {
  const Plan plan = with_coats_that_tauten();
  CHECK_THAT(plan_summary(plan, "a", {100, false}), Contains("NO VERDICT") && Contains("tauten"));
  Folder folder;
  write_sheet(plan, Paper::letter, "0.0.0", folder / "plan.pdf");
  CHECK_THAT(pages(folder / "plan.pdf").front(), Contains("NO VERDICT") && Contains("No steps are given"));
  write_page(plan, "0.0.0", folder / "plan.html");
  std::ifstream in(folder / "plan.html");
  const std::string html{std::istreambuf_iterator<char>(in), {}};
  CHECK_THAT(html, Contains("NO VERDICT"));
}

TEST_CASE("what is not known of the time after the iron is said, whatever the case says of its coats") {
  Case c = sample_case();
  CHECK_THAT(joined(viz::after_iron_sentences(c)), Contains("does not say which coats") && Contains("250 °F"));
  c.finish = FinishKind::not_tautening;
  const auto known = joined(viz::after_iron_sentences(c));
  CHECK_THAT(known, Contains("Not counted") && !Contains("does not say which coats") && !Contains("No verdict"));
  CHECK_THAT(known, !Contains("Wood"));
  make_wooden(c);
  CHECK_THAT(joined(viz::after_iron_sentences(c)), Contains("in time about 2.0 times"));
}

TEST_CASE("a bow of wood is told as it will be and as it reads, a stress with what makes it another one") {
  LimitReading l;
  l.limit = Limit::edge_bow, l.value = 0.004, l.allowed = 0.005, l.lasting = 2;
  CHECK(viz::limit_value(l) == "1/250 of spacing in time, 1/500 of spacing at once");
  CHECK(viz::limit_allowed(l) == "1/200 of spacing");
  l = {};
  l.limit = Limit::stress, l.at_weld = true;
  CHECK(viz::limit_text(l) == "stress beside a weld");
  l.at_weld = false, l.compression = true;
  CHECK(viz::limit_text(l) == "stress in compression");
}

TEST_CASE("at the bench wood is to read no more than what grows to its limit") {
  Plan plan = sample_plan();
  plan.chances.shapes.clear();
  plan.the_case.limits.bow_per_spacing = 0.01, plan.the_case.limits.least_bow = 0;
  const auto metal = joined(viz::checks_after_stage(plan, 0));
  make_wooden(plan.the_case);
  const auto wood = joined(viz::checks_after_stage(plan, 0));
  CHECK_THAT(metal, Contains("bow between ribs: at most 0.12 in (3.0 mm).") && !Contains("in time"));
  CHECK_THAT(wood, Contains("bow between ribs: at most 0.06 in (1.5 mm) (wood: in time about 0.12 in (3.0 mm))"));
  // Finer than a ruler: another tool is named.
  plan.the_case.limits.bow_per_spacing = 0.004;
  CHECK_THAT(joined(viz::checks_after_stage(plan, 0)), Contains("by a feeler gauge"));
}

TEST_CASE("the hinge line is to be read where something is known or allowed of it") {
  Plan plan = sample_plan();
  plan.chances.shapes.clear();
  CHECK_THAT(joined(viz::checks_after_stage(plan, 0)), !Contains("Hinge line"));
  plan.the_case.limits.hinge_line_bow = 2e-3;
  CHECK_THAT(joined(viz::checks_after_stage(plan, 0)),
             Contains("Hinge line by a string") && Contains("0.08 in (2.0 mm)"));
  plan.the_case.limits.hinge_line_bow = 0;
  for (StageSummary& s : plan.stages) s.end.hinge_line_bow = 1e-3;
  CHECK_THAT(joined(viz::checks_after_stage(plan, 0)), Contains("bow between: expected 0.04 in (1.0 mm)."));
  plan.chances.shapes = {{Limit::hinge_line_bow, 0, 1e-3, 2.5e-3}};
  CHECK_THAT(joined(viz::checks_after_stage(plan, 0)), Contains("expected 0.04 in (1.0 mm); stop at 0.10 in (2.5 mm)"));
}

TEST_CASE("a material says what it bears pulled, pressed and welded, and what it gives in time") {
  Material m{"invented", 68.9e9, 25.9e9, 241e6, Strength::yield, 234e6, 105e6};
  CHECK(viz::material_values(m) ==
        "E 68.9 GPa, G 25.9 GPa, yield 241 MPa, in compression 234 MPa, within 25 mm (0.984 in) of a weld 105 MPa");
  m.welded_strength = m.compression_strength = 0;
  CHECK(viz::material_values(m) == "E 68.9 GPa, G 25.9 GPa, yield 241 MPa");
  m.kind = Strength::rupture, m.lasting_movement = 2;
  CHECK_THAT(viz::material_values(m), Contains("modulus of rupture") && Contains("in time 2 times"));
}
