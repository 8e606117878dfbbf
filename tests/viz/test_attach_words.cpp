// When the cloth is fastened to ribs, in words.
#include "tests/support/sample_plan.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/cautions.hpp"
#include "viz/words/check_words.hpp"
#include "viz/words/record_words.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace evenpull;
using namespace evenpull::viz;
using Catch::Matchers::Contains;

namespace {

constexpr double after_all = std::numeric_limits<double>::infinity();

std::string all_of(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& s : sentences) text += s + "\n";
  return text;
}

Plan scheduled() {
  Plan plan = sample_plan();
  const double first = plan.the_case.stages.front().temperature;
  plan.the_case.attachments = {{AttachHow::laced, {1, 2}, first, 0.0635},
                               {AttachHow::glued, {3}, 0, 0},
                               {AttachHow::screwed, {4}, after_all, 0.05},
                               {AttachHow::left, {5}}};
  return plan;
}

}  // namespace

TEST_CASE("a schedule is told rib by rib, in both units", "[attach]") {
  const Case c = scheduled().the_case;
  CHECK(attachment_sentences(c) == std::vector<std::string>{"Ribs 2 and 3: laced every 2.5 in (64 mm), after 250 °F.",
                                                            "Rib 4: glued, before ironing.",
                                                            "Rib 5: screwed every 2.0 in (50 mm), after ironing.",
                                                            "Rib 6: left."});
  CHECK(moment_mark(c, c.attachments[0]) == "1");
  CHECK(moment_mark(c, c.attachments[1]) == "0");
  CHECK(moment_mark(c, c.attachments[2]) == "E");
  CHECK_THAT(all_of(marks_legend(c)), Contains("crosses: laced") && Contains("squares: screwed") && !Contains("discs"));
}

TEST_CASE("each rib is fastened once, in its turn, and what is left of the schedule after the last stage", "[attach]") {
  const Case c = scheduled().the_case;
  CHECK_THAT(all_of(fasten_now(c, -1, false)), Contains("Glue the cloth to rib 4.") && !Contains("Lace"));
  CHECK_THAT(all_of(fasten_now(c, 0, false)), Contains("Lace the cloth to ribs 2 and 3") && !Contains("Screw"));
  CHECK(fasten_now(c, 1, false).empty());
  CHECK_THAT(all_of(fasten_now(c, 2, true)), Contains("Screw the cloth to rib 5") && !Contains("Lace"));
  // A job that ends at its first stage has all that is left to fasten then.
  CHECK_THAT(all_of(fasten_now(c, 0, true)), Contains("Lace") && Contains("Screw") && !Contains("Glue"));
  CHECK_THAT(fastened_first(c, 1), Contains("First, cloth cold: Lace"));
  CHECK(fastened_first(c, 2).empty());
}

TEST_CASE("only what is fastened before ironing is doubted", "[attach]") {
  Case c = scheduled().the_case;
  CHECK_THAT(all_of(attachment_doubts(c)), Contains("Rib 4 is fastened before ironing") && Contains("taut"));
  c.attachments.erase(c.attachments.begin() + 1);
  CHECK(attachment_doubts(c).empty());
}

TEST_CASE("checks, preparations and record of a plan tell its schedule, and one without tells none", "[attach]") {
  const Plan with = scheduled(), without = sample_plan();
  CHECK_THAT(all_of(checks_after_stage(with, 0)), Contains("Only then, cloth cold: Lace the cloth to ribs 2 and 3"));
  CHECK_THAT(all_of(preparations(with)), Contains("Before the iron: Glue the cloth to rib 4."));
  CHECK_THAT(all_of(assumptions(with)), Contains("as the case schedules it, ribs 2 and 3: laced"));
  CHECK_THAT(all_of(checks_after_stage(without, 0)), !Contains("Lace") && !Contains("Only then"));
  CHECK_THAT(all_of(assumptions(without)), !Contains("schedules"));
}
