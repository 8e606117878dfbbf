#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/kit/text.hpp"
#include "viz/lesson/lesson.hpp"
#include "viz/lesson/lesson_numbers.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::reading;

namespace {

Lesson sample_lesson(const SampleWish& wish = {}) {
  Lesson lesson;
  for (const char* name : {"one side first", "root to tip", "the plan"})
    lesson.ways.push_back({name, "A rule of one sentence.", up_to_stage(sample_plan(wish), 0)});
  return lesson;
}

}  // namespace

TEST_CASE("a lesson keeps the moments up to the end of its stage") {
  const Plan whole = sample_plan(), kept = up_to_stage(whole, 0);
  std::size_t steps = 0;
  for (const auto& s : whole.steps) steps += s.stage == 0;
  REQUIRE(steps < whole.steps.size());
  CHECK(kept.steps.size() == steps);
  CHECK(kept.snapshots.size() == steps + 1);
  CHECK(kept.stage_end_snapshot.size() == 1);
}

TEST_CASE("of a frame that gave way a lesson keeps the steps that were computed") {
  Plan plan = sample_plan();
  plan.snapshots.resize(6);
  const Plan kept = up_to_stage(plan, 0);
  CHECK(kept.snapshots.size() == 6);
  CHECK(kept.steps.size() == 5);
}

TEST_CASE("slip of a moment is the largest by magnitude with its sign") {
  Plan plan = up_to_stage(sample_plan(), 0);
  Snapshot& now = plan.snapshots[3];
  std::fill(now.edge_slip.begin(), now.edge_slip.end(), 0.0f);
  now.edge_slip[2] = 0.001f;
  now.edge_slip[5] = -0.004f;
  const LessonSeries s = lesson_series(plan);
  CHECK(s.slip[3] == Approx(-0.004));
  CHECK(viz::peak({0, -3, 2, 3}) == 1);
}

TEST_CASE("turn-overs are counted as far as the clock has come") {
  const Plan plan = up_to_stage(sample_plan(), 0);
  const auto turned = lesson_series(plan).turn_overs;
  int n = 0;
  for (std::size_t i = 1; i < plan.steps.size(); ++i) {
    n += plan.panel.zones[plan.steps[i].zone].side != plan.panel.zones[plan.steps[i - 1].zone].side;
    CHECK(turned[i + 1] == n);
  }
  CHECK(turned[1] == 0);
}

TEST_CASE("there are five questions, each with an answer, for cloth that can slip and for cloth that cannot") {
  SampleWish sheets;
  sheets.two_sheets = true;
  for (const auto& wish : {SampleWish{}, sheets}) {
    const auto questions = lesson_questions(sample_lesson(wish));
    REQUIRE(questions.size() == 5);
    for (const auto& q : questions) {
      CHECK(q.question.back() == '?');
      CHECK(q.answer.back() == '.');
    }
    const bool slips = questions[0].answer.find("After step") == 0;
    CHECK(slips == !wish.two_sheets);
  }
}

TEST_CASE("the hand-out has two pages of real text with the five questions on the second, none of it too small") {
  SampleWish bow;
  bow.tip_bow = true;
  for (const auto& wish : {SampleWish{}, bow}) {
    Folder folder;
    const Lesson lesson = sample_lesson(wish);
    write_lesson_sheet(lesson, Paper::a4, "1.2.3", folder / "lesson.pdf");
    const auto text = pages(folder / "lesson.pdf");
    REQUIRE(text.size() == 2);
    CHECK(text[0].find("one side first") != std::string::npos);
    CHECK(text[0].find("Twist, degrees") != std::string::npos);
    for (const char* number : {"1", "2", "3", "4", "5"}) CHECK(text[1].find(number) != std::string::npos);
    CHECK(text[1].find("Fold back here") != std::string::npos);
    // pdftotext states line boxes: about 1.16 of the type size for this face.
    for (double h : word_heights(folder / "lesson.pdf")) CHECK(h > viz::least_type);
  }
}

TEST_CASE("two runs give the same hand-out and the same page") {
  Folder folder;
  const Lesson lesson = sample_lesson();
  for (const char* n : {"1", "2"}) {
    write_lesson_sheet(lesson, Paper::letter, "1", folder / (std::string(n) + ".pdf"));
    write_lesson_page(lesson, "1", folder / (std::string(n) + ".html"));
  }
  CHECK(bytes(folder / "1.pdf") == bytes(folder / "2.pdf"));
  CHECK(bytes(folder / "1.html") == bytes(folder / "2.html"));
}
