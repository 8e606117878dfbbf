// What a lesson says: how much order matters on a panel, computed from how the three ways went, and the questions with the
// answers that these numbers give. No sentence here claims a difference that the numbers do not show.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

struct LessonQuestion {
  std::string question;
  std::vector<std::string> choices;  ///< to guess from, in a few words each
  std::string answer;
};

/// How much order matters on a panel.
struct OrderMatters {
  std::string headline;  ///< one sentence that gives no answer away
  std::string finding;   ///< what differs, with numbers, where the plan is not the best as well
};

namespace viz {

/// The largest of a series by magnitude, and after which step.
struct LessonPeak {
  double value = 0;
  std::string when;  ///< "after step 12 (T12)"
};

/// How one way went, up to the stage that the lesson shows.
struct WayFigures {
  std::string letter, name;              ///< "A", "one side first"
  bool gave_way = false;                 ///< the frame did: what stands here is of what came before
  LessonPeak twist;                      ///< rad
  LessonPeak slip;                       ///< m, + to the top, of all cloth at the trailing edge
  LessonPeak difference;                 ///< N/m, along the chord, + top pulls harder
  double judged_slip = 0;                ///< m, the worst where the cloth at the trailing edge is tight
  double worst_use = 0;                  ///< of any limit of strength and shape, as stated: 1 is the limit
  double twist_left = 0, slip_left = 0;  ///< rad, m, by amount, when the last stage is done
  int turn_overs = 0;
};

/// What the figures are measured by.
struct LessonScale {
  Limits limits;
  double strongest_pull = 0;  ///< N/m
  bool can_slip = true;       ///< the cloth can go round the trailing edge
};

/// The last way is the plan.
OrderMatters order_matters(const std::vector<WayFigures>& ways, const LessonScale& by);

/// Five plain questions with the answers that this run gives. The first way is the one asked about most.
std::vector<LessonQuestion> lesson_questions(const std::vector<WayFigures>& ways, const LessonScale& by);

/// Up to which stage the lesson goes, in agreement with the verdict of its plan.
std::string lesson_stage_text(const Plan& plan);

/// What the third way is: the order of the plan, or of a first look.
std::string lesson_plan_rule(const Plan& plan);

/// An angle of a lesson is often small: "0.31°", "0.004°".
std::string lesson_angle(double radians);

/// "after step 12 (T12)"; "before ironing".
std::string moment_words(const Plan& plan, std::size_t moment);

/// A limit drawn among curves: "hatched line: limit 0.50°".
std::string limit_line_text(const std::string& value);
/// A limit that lies far beyond a curve: "limit 0.50° (off the chart)".
std::string limit_off_chart_text(const std::string& value);

}  // namespace viz
}  // namespace evenpull
