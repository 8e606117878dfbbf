#include "viz/lesson/lesson_numbers.hpp"

#include "viz/words/wording.hpp"

#include <algorithm>
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

std::vector<WayFigures> lesson_figures(const Lesson& lesson) {
  const auto series = all_series(lesson);
  std::vector<WayFigures> figures;
  for (std::size_t w = 0; w < lesson.ways.size(); ++w) {
    const Plan& plan = lesson.ways[w].plan;
    const LessonSeries& s = series[w];
    const auto at_peak = [&](const std::vector<double>& values) {
      const std::size_t at = peak(values);
      return LessonPeak{values[at], moment_words(plan, at)};
    };
    WayFigures f;
    f.letter = way_letter(w), f.name = lesson.ways[w].name;
    f.twist = at_peak(s.twist), f.slip = at_peak(s.slip), f.difference = at_peak(s.difference_chord);
    f.twist_left = std::abs(s.twist.back()), f.slip_left = std::abs(s.slip.back());
    f.turn_overs = s.turn_overs.back();
    for (const OrderResult& o : plan.orders)
      if (o.chosen) f.gave_way = o.gave_way, f.judged_slip = o.worst_slip, f.worst_use = o.worst_use;
    figures.push_back(std::move(f));
  }
  return figures;
}

LessonScale lesson_measure(const Lesson& lesson) {
  return {lesson.ways.front().plan.the_case.limits, lesson_scale(lesson).strongest_pull, can_slip(lesson)};
}

std::vector<LessonQuestion> lesson_questions(const Lesson& lesson) {
  return lesson_questions(lesson_figures(lesson), lesson_measure(lesson));
}

OrderMatters order_matters(const Lesson& lesson) {
  return order_matters(lesson_figures(lesson), lesson_measure(lesson));
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

namespace {

constexpr double inch = 0.0254, pound_per_inch = 4.4482216152605 / inch, degree = std::numbers::pi / 180;
// A limit further off than this times the curve would press it flat. Judgement.
constexpr double near_enough = 1.6;

/// Draws the limit where the curves come near it, on both sides of zero where they do; else says that it is off the chart.
void add_limit(LessonCurve& curve, double limit, const std::string& value) {
  double low = 0, high = 0;
  for (const auto& way : curve.ways)
    for (double v : way) low = std::min(low, v), high = std::max(high, v);
  if (near_enough * high >= limit) curve.limits.push_back(limit);
  if (-near_enough * low >= limit) curve.limits.push_back(-limit);
  curve.limit_words = curve.limits.empty() ? limit_off_chart_text(value) : limit_line_text(value);
}

}  // namespace

std::vector<LessonCurve> lesson_curves(const Lesson& lesson, const std::vector<LessonSeries>& series) {
  const auto curve = [&](const char* title, int decimals, std::vector<double> LessonSeries::*what, double unit) {
    LessonCurve c;
    c.title = title, c.decimals = decimals;
    for (const auto& s : series) {
      c.ways.push_back(s.*what);
      for (double& v : c.ways.back()) v /= unit;
    }
    return c;
  };
  const Limits& limits = lesson.ways.front().plan.the_case.limits;
  std::vector<LessonCurve> list;
  if (can_slip(lesson)) {
    list.push_back(curve("Slip, in (+: to top)", 2, &LessonSeries::slip, inch));
    add_limit(list.back(), limits.slip / inch, number_text(inches(limits.slip), 2) + " in");
  }
  list.push_back(curve("Twist, degrees", 2, &LessonSeries::twist, degree));
  add_limit(list.back(), limits.twist / degree, lesson_angle(limits.twist));
  list.push_back(curve("Chord pull, top − bottom, lb/in", 1, &LessonSeries::difference_chord, pound_per_inch));
  list.push_back(curve("Span pull, top − bottom, lb/in", 1, &LessonSeries::difference_span, pound_per_inch));
  if (limits.pull_difference)
    for (std::size_t i = list.size() - 2; i < list.size(); ++i)
      add_limit(list[i], *limits.pull_difference / pound_per_inch,
                number_text(pounds_per_inch(*limits.pull_difference), 1) + " lb/in");
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

}  // namespace viz
}  // namespace evenpull
