#include "viz/lesson/lesson_numbers.hpp"

#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numbers>

namespace evenpull {

namespace {

using namespace viz;

double largest_by_magnitude(const std::vector<float>& values) {
  double worst = 0;
  for (double v : values)
    if (std::abs(v) > std::abs(worst)) worst = v;
  return worst;
}

}  // namespace

LessonSeries lesson_series(const Plan& plan) {
  LessonSeries s;
  int turned = 0;
  for (std::size_t i = 0; i < plan.snapshots.size(); ++i) {
    const Snapshot& now = plan.snapshots[i];
    s.slip.push_back(largest_by_magnitude(now.edge_slip));
    s.twist.push_back(now.twist);
    s.tip_turn.push_back(now.tip_turn);
    s.difference_chord.push_back(now.difference_chord);
    s.difference_span.push_back(now.difference_span);
    if (i > 1 && plan.panel.zones[plan.steps[i - 1].zone].side != plan.panel.zones[plan.steps[i - 2].zone].side)
      ++turned;
    s.turn_overs.push_back(turned);
  }
  return s;
}

Plan up_to_stage(Plan plan, int stage) {
  const auto last = std::find_if(plan.steps.begin(), plan.steps.end(), [&](const Step& s) { return s.stage > stage; });
  plan.steps.erase(last, plan.steps.end());
  if (plan.snapshots.size() > plan.steps.size() + 1) plan.snapshots.resize(plan.steps.size() + 1);
  // A frame that gave way has fewer moments than steps.
  if (plan.steps.size() + 1 > plan.snapshots.size() && !plan.snapshots.empty())
    plan.steps.resize(plan.snapshots.size() - 1);
  if (plan.stage_end_snapshot.size() > static_cast<std::size_t>(stage) + 1) plan.stage_end_snapshot.resize(stage + 1);
  return plan;
}

std::vector<LessonQuestion> lesson_questions(const Lesson& lesson) {
  const auto series = all_series(lesson);
  const auto each = [&](const auto& words) {
    std::string text;
    for (std::size_t w = 0; w < lesson.ways.size(); ++w)
      text += (text.empty() ? "" : "; ") + way_letter(w) + " " + words(w);
    return text + ".";
  };
  const Plan& a = lesson.ways.front().plan;
  const LessonSeries& wrong = series.front();
  std::vector<LessonQuestion> list;

  if (can_slip(lesson)) {
    const std::size_t at = peak(wrong.slip);
    list.push_back({"Way A: after which step has the cloth moved furthest round the trailing edge, and to which side?",
                    fmt::format("{}: {}{}. The side that is hot first takes cloth from the other one. Furthest in the "
                                "other ways: ",
                                moment_words(a, at), small_length_both(std::abs(wrong.slip[at])),
                                wrong.slip[at] > 0   ? ", to the top"
                                : wrong.slip[at] < 0 ? ", to the bottom"
                                                     : "")});
    for (std::size_t w = 1; w < lesson.ways.size(); ++w)
      list.back().answer += fmt::format("{}{} {}", w > 1 ? "; " : "", way_letter(w),
                                        small_length_both(std::abs(series[w].slip[peak(series[w].slip)])));
    list.back().answer += ".";
  } else {
    list.push_back(
        {"This panel has two sheets, each glued to the trailing edge. What does a full wrap do that this cloth cannot?",
         "It cannot slide round the trailing edge from one side to the other: each sheet keeps what it has."});
  }
  list.push_back({"In which way does the frame twist most on the way, and after which step?", each([&](std::size_t w) {
                    const std::size_t at = peak(series[w].twist);
                    return lesson_angle(series[w].twist[at]) + " " + moment_words(lesson.ways[w].plan, at);
                  })});
  const std::size_t at = peak(wrong.difference_chord);
  list.push_back(
      {"Way A: when do top and bottom pull least alike along the chord, and which side pulls harder?",
       fmt::format("{}: the {} by {}. That is what bends and twists the frame; pull alone, alike on both sides, "
                   "only squeezes it.",
                   moment_words(a, at), wrong.difference_chord[at] > 0 ? "top" : "bottom",
                   pull_both(std::abs(wrong.difference_chord[at])))});
  list.push_back({"How many times is the panel turned over in each way? What is bought with it?",
                  each([&](std::size_t w) { return times_text(series[w].turn_overs.back()); }) +
                      " Largest pull difference along the chord: " + each([&](std::size_t w) {
                        const auto& d = series[w].difference_chord;
                        return pull_both(std::abs(d[peak(d)]));
                      })});
  list.push_back(
      {"At the end every zone has had the same heat in all three ways. Is everything back where it was?",
       (can_slip(lesson) ? "Slip that is left: " + each([&](std::size_t w) {
                             return small_length_both(std::abs(series[w].slip.back()));
                           }) + " "
                         : std::string()) +
           "Twist that is left: " + each([&](std::size_t w) { return lesson_angle(series[w].twist.back()); }) +
           " What friction holds does not come back by itself, and where the limit was passed on the way the "
           "harm is done."});
  for (auto& q : list) q.answer[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(q.answer[0])));
  return list;
}

namespace viz {

std::string way_letter(std::size_t way) { return std::string(1, static_cast<char>('A' + way)); }

std::size_t peak(const std::vector<double>& series) {
  std::size_t at = 0;
  for (std::size_t i = 0; i < series.size(); ++i)
    if (std::abs(series[i]) > std::abs(series[at])) at = i;
  return at;
}

bool can_slip(const Lesson& lesson) {
  const Blanket& b = lesson.ways.front().plan.the_case.blanket;
  return b.kind == BlanketKind::full_wrap && !b.edge_glued;
}

std::vector<LessonSeries> all_series(const Lesson& lesson) {
  std::vector<LessonSeries> all;
  for (const auto& way : lesson.ways) all.push_back(lesson_series(way.plan));
  return all;
}

std::vector<LessonCurve> lesson_curves(const Lesson& lesson, const std::vector<LessonSeries>& series) {
  const auto curve = [&](const char* title, int decimals, std::vector<double> LessonSeries::*what, double unit) {
    LessonCurve c{title, decimals, {}};
    for (const auto& s : series) {
      c.ways.push_back(s.*what);
      for (double& v : c.ways.back()) v /= unit;
    }
    return c;
  };
  constexpr double inch = 0.0254, pound_per_inch = 4.4482216152605 / inch, degree = std::numbers::pi / 180;
  std::vector<LessonCurve> list;
  if (can_slip(lesson)) list.push_back(curve("Slip, in (+: to top)", 2, &LessonSeries::slip, inch));
  list.push_back(curve("Twist, degrees", 2, &LessonSeries::twist, degree));
  list.push_back(curve("Chord pull, top − bottom, lb/in", 1, &LessonSeries::difference_chord, pound_per_inch));
  list.push_back(curve("Span pull, top − bottom, lb/in", 1, &LessonSeries::difference_span, pound_per_inch));
  return list;
}

PullScale lesson_scale(const Lesson& lesson) {
  PullScale scale;
  double strongest = 0;
  for (const auto& way : lesson.ways) {
    PullScale own = common_scale(way.plan);
    scale.strongest_pull = std::max(scale.strongest_pull, own.strongest_pull);
    strongest = std::max(strongest, own.open_end ? own.bands.bounds.back() + 1 : own.bands.bounds.back());
    for (const auto& now : way.plan.snapshots)
      scale.longest_slip = std::max(scale.longest_slip, std::abs(largest_by_magnitude(now.edge_slip)));
  }
  constexpr int wanted_bands = 10;
  scale.bands = round_bands(scale.strongest_pull, wanted_bands);
  scale.open_end = strongest > scale.bands.bounds.back();
  return scale;
}

std::size_t telling_moment(const Lesson& lesson, const std::vector<LessonSeries>& series) {
  const LessonSeries& wrong = series.front();
  return peak(can_slip(lesson) ? wrong.slip : wrong.difference_chord);
}

std::string lesson_angle(double radians) {
  const double degrees = radians * 180 / std::numbers::pi;
  return number_text(degrees, std::abs(degrees) < 0.1 ? 3 : 2) + "°";
}

std::string moment_words(const Plan& plan, std::size_t moment) {
  if (moment == 0 || moment > plan.steps.size()) return "before ironing";
  return fmt::format("after step {} ({})", moment, plan.panel.zones[plan.steps[moment - 1].zone].label);
}

}  // namespace viz
}  // namespace evenpull
