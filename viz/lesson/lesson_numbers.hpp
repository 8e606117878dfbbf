// What the hand-out and the page of a lesson share: series of all ways, their peaks, names.
#pragma once

#include "viz/lesson/lesson.hpp"
#include "viz/pictures/pull_picture.hpp"

#include <array>

namespace evenpull::viz {

/// "A", "B", "C".
std::string way_letter(std::size_t way);

/// The moment at which a series is largest by magnitude; the first of equals.
std::size_t peak(const std::vector<double>& series);

/// One curve of the lesson: title with unit, and its numbers in that unit for each way.
struct LessonCurve {
  std::string title;
  int decimals = 2;
  std::vector<std::vector<double>> ways;
  std::vector<double> limits;  ///< lines to draw; none where there is no limit or it lies far off
  std::string limit_words;     ///< about them, or that they lie off the chart; empty: there is none
};
/// Slip (where the cloth can slip), twist, pull difference along the chord and along the span.
std::vector<LessonCurve> lesson_curves(const Lesson& lesson, const std::vector<LessonSeries>& series);

std::vector<LessonSeries> all_series(const Lesson& lesson);

/// One scale for the pull of all ways, over every moment.
PullScale lesson_scale(const Lesson& lesson);

bool can_slip(const Lesson& lesson);
/// The moment worth a picture: when the first way is at its worst.
std::size_t telling_moment(const Lesson& lesson, const std::vector<LessonSeries>& series);

}  // namespace evenpull::viz
