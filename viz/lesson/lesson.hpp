// The apprentice's lesson: three ways of ironing the same panel, side by side with one clock. A hand-out of two pages and
// a page for a browser.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "viz/sheet/sheet.hpp"
#include "viz/words/lesson_words.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// One way of going about it. Its plan holds the steps and snapshots of the lesson and no more; the entry of `orders` that is
/// chosen says what it came to on the plan's own mesh.
struct LessonWay {
  std::string name;  ///< "one side first"
  std::string rule;  ///< one sentence
  Plan plan;
};

/// What moves while the panel is ironed, moment by moment (0 = before ironing).
struct LessonSeries {
  std::vector<double> slip;              ///< m round the trailing edge, the largest by magnitude, + to the top
  std::vector<double> twist;             ///< rad, as the limit counts it (docs/model.md, section 7)
  std::vector<double> tip_turn;          ///< rad, tip rib against root rib, signed: + trailing edge up at the tip
  std::vector<double> difference_chord;  ///< N/m, top minus bottom, of the bay where it is largest
  std::vector<double> difference_span;   ///< N/m
  std::vector<int> turn_overs;           ///< so far
};
LessonSeries lesson_series(const Plan& plan);

struct Lesson {
  std::vector<LessonWay> ways;       ///< the wrong way, the plain way, the plan: A, B, C
  std::vector<std::string> changed;  ///< what the teacher set, as sentences
};

/// Keeps of a plan what the lesson shows: all up to the end of a stage.
Plan up_to_stage(Plan plan, int stage);

/// How each way went, in numbers.
std::vector<viz::WayFigures> lesson_figures(const Lesson& lesson);
/// What they are measured by.
viz::LessonScale lesson_measure(const Lesson& lesson);

/// Five plain questions with the answers that this run gives.
std::vector<LessonQuestion> lesson_questions(const Lesson& lesson);
/// How much order matters on this panel.
OrderMatters order_matters(const Lesson& lesson);

/// lesson.pdf: a page to guess on, a page that shows what came of it. Throws CannotWriteFile that names the file when it cannot be written; the same bytes every time.
void write_lesson_sheet(const Lesson& lesson, Paper paper, const std::string& version, const std::string& path);
/// lesson.html: opens from a file, needs no network.
void write_lesson_page(const Lesson& lesson, const std::string& version, const std::string& path);

}  // namespace evenpull
