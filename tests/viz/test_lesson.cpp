#include "tests/support/sample_plan.hpp"
#include "tests/viz/reading.hpp"
#include "viz/kit/text.hpp"
#include "viz/lesson/lesson.hpp"
#include "viz/lesson/lesson_numbers.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <optional>

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
      CHECK(q.choices.size() >= 2);
      CHECK(q.answer.back() == '.');
    }
    const bool slips = questions[0].answer.find("After step") == 0;
    CHECK(slips == !wish.two_sheets);
  }
}

TEST_CASE("the hand-out asks on its first page and answers on its second, and none of it is too small") {
  // Of the answers, which are read at a desk, and of the names on the small map [points].
  constexpr double least = 8;
  SampleWish bow, sheets, many;
  bow.tip_bow = true;
  sheets.two_sheets = true;
  many.bays = 12;
  for (const auto& wish : {SampleWish{}, bow, sheets, many})
    for (Paper paper : {Paper::a4, Paper::letter}) {
      Folder folder;
      const Lesson lesson = sample_lesson(wish);
      write_lesson_sheet(lesson, paper, "1.2.3", folder / "lesson.pdf");
      auto text = pages(folder / "lesson.pdf");
      REQUIRE(text.size() == 2);
      for (auto& page : text) page = with_single_spaces(page);
      const auto questions = lesson_questions(lesson);
      for (const auto& q : questions) {
        const auto first_words = q.question.substr(0, q.question.find(' ', 12));
        CHECK(text[0].find(first_words) != std::string::npos);
        CHECK(text[1].find(first_words) == std::string::npos);
      }
      CHECK(text[0].find("one side first") != std::string::npos);
      CHECK(text[0].find(order_matters(lesson).headline) != std::string::npos);
      CHECK(text[1].find("Twist, degrees") != std::string::npos);
      CHECK(text[1].find("true scale") != std::string::npos);
      for (double h : word_heights(folder / "lesson.pdf")) CHECK(h > least);
    }
}

TEST_CASE("the answers stand on their heads at the foot of the second page") {
  Folder folder;
  write_lesson_sheet(sample_lesson(), Paper::letter, "1.2.3", folder / "lesson.pdf");
  // Of what is set upside down the words of a line go from right to left.
  const auto words = words_of_page(folder / "lesson.pdf", 2);
  double squeezes = -1, only = -1, foot = 0;
  for (const auto& w : words) {
    if (w.text == "squeezes") squeezes = w.left;
    if (w.text == "only") only = w.left;
    if (w.text == "airworthy") foot = w.top;
    if (w.text == "squeezes") CHECK(w.top > 0.6 * 612);
  }
  REQUIRE(squeezes > 0);
  CHECK(squeezes < only);
  CHECK(foot > 0);
}

namespace {

viz::WayFigures figures(const char* letter, const char* name, double twist_degrees, double slip_left) {
  viz::WayFigures w;
  w.letter = letter, w.name = name;
  w.twist = {twist_degrees * std::numbers::pi / 180, "after step 9 (T9)"};
  w.slip = {1.2 * slip_left, "after step 7 (T7)"};
  w.difference = {60, "after step 5 (T5)"};
  w.judged_slip = slip_left, w.slip_left = slip_left;
  w.twist_left = 0.5 * w.twist.value;
  w.worst_use = 0.6;
  w.turn_overs = 3;
  return w;
}

std::vector<viz::WayFigures> three(double wrong, double plain, double plan, double wrong_slip = 1e-3,
                                   double plain_slip = 1e-3, double plan_slip = 1e-3) {
  return {figures("A", "one side first", wrong, wrong_slip), figures("B", "root to tip", plain, plain_slip),
          figures("C", "the plan", plan, plan_slip)};
}

viz::LessonScale usual_scale() {
  viz::LessonScale by;
  by.limits.twist = 0.5 * std::numbers::pi / 180;
  by.limits.slip = 5e-3;
  by.strongest_pull = 400;
  return by;
}

bool says(const std::string& text, const char* words) { return text.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("where the ways come out alike a lesson says that order changes little, and no answer claims otherwise") {
  const auto ways = three(0.05, 0.04, 0.05);
  const auto m = viz::order_matters(ways, usual_scale());
  CHECK(m.headline == "On this panel order changes little.");
  CHECK(says(m.finding, "comes out like the plan"));
  CHECK_FALSE(says(m.finding, "worse"));
  CHECK_FALSE(says(m.finding, "times)"));
  const auto q = viz::lesson_questions(ways, usual_scale());
  CHECK(says(q[1].answer, "No great difference."));
  CHECK_FALSE(says(q[3].answer, "Bought"));
  CHECK_FALSE(says(q[4].answer, "limit"));
}

TEST_CASE("where one side first twists the frame a lesson says by how much, and which limit it passes") {
  const auto ways = three(0.6, 0.3, 0.2, 4e-3, 2e-3, 0.5e-3);
  const auto m = viz::order_matters(ways, usual_scale());
  CHECK(m.headline == "On this panel order matters much.");
  CHECK(says(m.finding, "0.60° against 0.20° (3.0 times)"));
  CHECK(says(m.finding, "(8.0 times)"));
  CHECK(says(m.finding, "One side first passes the limit of twist (0.50°)."));
  CHECK_FALSE(says(m.finding, "The plan passes"));
  CHECK(says(viz::lesson_questions(ways, usual_scale())[1].answer, "Way A."));
}

TEST_CASE("where the wrong way does better a lesson says so") {
  // Less twist than the plan, more slip.
  const auto mixed = viz::order_matters(three(0.1, 0.2, 0.3, 4e-3, 2e-3, 1e-3), usual_scale());
  CHECK(mixed.headline == "On this panel order matters, and no way is the best in everything.");
  CHECK(says(mixed.finding, "It does better in twist on the way 0.10° against 0.30°"));
  CHECK(says(mixed.finding, "need not be the best in each"));
  const auto better = viz::order_matters(three(0.1, 0.2, 0.3), usual_scale());
  CHECK(better.headline == "On this panel the plan keeps the frame no truer than one side first.");
  CHECK(says(better.finding, "One side first does better in twist"));
  CHECK(says(better.finding, "Root to tip does better than the plan in twist"));
}

TEST_CASE("a way in which the frame gives way is told before any number of it") {
  auto ways = three(0.6, 0.3, 0.2);
  ways[0].gave_way = true;
  const auto m = viz::order_matters(ways, usual_scale());
  CHECK(m.headline == "On this panel order decides: not in every way does the frame stand.");
  CHECK(says(m.finding, "The frame gives way in A (one side first); it stands in B (root to tip) and C (the plan)."));
  CHECK(says(viz::lesson_questions(ways, usual_scale())[4].answer, "The frame gives way in A"));
  for (auto& w : ways) w.gave_way = true;
  CHECK(viz::order_matters(ways, usual_scale()).headline == "On this panel the frame gives way in all three ways.");
}

TEST_CASE("slip of cloth that is loose on both sides is not taken for slip that counts") {
  auto ways = three(0.1, 0.1, 0.1);
  ways[0].slip.value = 8e-3;  // beyond the limit, but loose
  ways[0].judged_slip = 1e-3;
  const auto q = viz::lesson_questions(ways, usual_scale());
  CHECK(says(q[0].answer, "still loose on both sides"));
  CHECK_FALSE(says(viz::order_matters(ways, usual_scale()).finding, "limit of slip"));
}

TEST_CASE("a lesson of a first look calls nothing safe, one of a plan names its hottest safe stage") {
  Plan plan = sample_plan();
  plan.ceiling = 1;
  CHECK(says(viz::lesson_stage_text(plan), "the hottest safe stage of the plan"));
  plan.ceiling.reset();
  CHECK(says(viz::lesson_stage_text(plan), "calls no stage of this panel safe"));
  plan.accuracy = Accuracy::quick;
  plan.chances = {};
  for (std::optional<int> stage : {std::optional<int>(1), std::optional<int>()}) {
    plan.ceiling = stage;
    CHECK(says(viz::lesson_stage_text(plan), "first look"));
    CHECK_FALSE(says(viz::lesson_stage_text(plan), "safe stage"));
  }
  CHECK(says(viz::lesson_plan_rule(plan), "As the first look has it"));
}

TEST_CASE("a limit near the curves is drawn in its place, one far above them is said to lie off the chart") {
  Lesson lesson = sample_lesson();
  const auto twist_curve = [&] {
    for (const auto& c : viz::lesson_curves(lesson, viz::all_series(lesson)))
      if (says(c.title, "Twist")) return c;
    return viz::LessonCurve{};
  };
  double most = 0;
  for (double v : lesson_series(lesson.ways[0].plan).twist) most = std::max(most, v);
  lesson.ways[0].plan.the_case.limits.twist = 1.2 * most;
  auto near = twist_curve();
  REQUIRE(near.limits.size() == 1);  // twist has no side below zero
  CHECK(near.limits[0] == Approx(1.2 * most * 180 / std::numbers::pi));
  CHECK(says(near.limit_words, "hatched line: limit"));
  lesson.ways[0].plan.the_case.limits.twist = 5 * most;
  auto far = twist_curve();
  CHECK(far.limits.empty());
  CHECK(says(far.limit_words, "(off the chart)"));
}

TEST_CASE("the page asks before it shows and answers afterwards") {
  Folder folder;
  write_lesson_page(sample_lesson(), "1", folder / "lesson.html");
  const auto page = bytes(folder / "lesson.html");
  const auto at = [&](const char* what) { return page.find(what); };
  CHECK(at("id=\"matters-head\"") < at("class=\"questions\""));
  CHECK(at("class=\"questions\"") < at("id=\"play\""));
  CHECK(at("id=\"play\"") < at("class=\"answers\""));
  CHECK(at("class=\"answers\"") < page.size());
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
