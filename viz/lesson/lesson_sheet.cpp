// The hand-out: a page to look at, a page to answer.
#include "viz/kit/chart.hpp"
#include "viz/kit/text.hpp"
#include "viz/lesson/lesson_numbers.hpp"
#include "viz/panel/bands.hpp"
#include "viz/panel/marks.hpp"
#include "viz/panel/skin_drawing.hpp"
#include "viz/sheet/sheet_frame.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull {

namespace {

using namespace viz;

constexpr double gap = 12;
constexpr double heading_type = 14;
constexpr double small = least_type;

std::vector<std::string> letters(const Lesson& lesson) {
  std::vector<std::string> list;
  for (std::size_t w = 0; w < lesson.ways.size(); ++w) list.push_back(way_letter(w));
  return list;
}

/// A pencil mark across the trailing edge, made before ironing: thin where it was, heavy where the cloth has taken it.
void draw_pencil_marks(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<float>& slip,
                       double factor) {
  const int last = panel.rows - 1;
  for (std::size_t b = 0; b + 1 < panel.rib_columns.size(); ++b) {
    const int from = panel.rib_columns[b], to = panel.rib_columns[b + 1], column = (from + to) / 2;
    const Point top = view.at(panel.nodes[panel.node(Side::top, last, column)]);
    const Point bottom = view.at(panel.nodes[panel.node(Side::bottom, last, column)]);
    const double away = std::hypot(top.x - bottom.x, top.y - bottom.y);
    const double ux = (top.x - bottom.x) / away, uy = (top.y - bottom.y) / away;
    const Point middle{(top.x + bottom.x) / 2, (top.y + bottom.y) / 2};
    const double shift = slip[column] * factor, half = 6;
    const Point moved{middle.x + shift * ux, middle.y + shift * uy};
    stroke_line(cr, {middle.x + half * uy, middle.y - half * ux}, {middle.x - half * uy, middle.y + half * ux}, 0.7);
    stroke_line(cr, {moved.x + half * uy, moved.y - half * ux}, {moved.x - half * uy, moved.y + half * ux}, 3);
    if (std::abs(shift) > 4) draw_arrow(cr, middle, moved, 1, 4);
  }
}

/// Root chord (thin) and tip chord (heavy) seen from the tip.
void draw_twist(cairo_t* cr, Point middle, double reach, double turn) {
  stroke_line(cr, {middle.x - reach, middle.y}, {middle.x + reach, middle.y}, 0.8, grey);
  const double c = std::cos(turn), s = std::sin(turn);
  stroke_line(cr, {middle.x - reach * c, middle.y + reach * s}, {middle.x + reach * c, middle.y - reach * s}, 2.6);
}

/// Widely rounded, so that a reader can do the division.
double round_factor(double wanted) {
  double best = 1;
  for (double power = 1; power <= 1000; power *= 10)
    for (double m : {1.0, 2.0, 5.0})
      if (m * power <= wanted) best = m * power;
  return best;
}

struct Exaggeration {
  double slip = 1, twist = 1;
};

void draw_way(cairo_t* cr, const Lesson& lesson, std::size_t way, std::size_t moment, const PullScale& scale,
              const Exaggeration& by, const SkinView& view) {
  const Plan& plan = lesson.ways[way].plan;
  const std::size_t at = std::min(moment, plan.snapshots.size() - 1);
  const Snapshot& now = plan.snapshots[at];
  draw_bands(cr, plan.panel, view, now.pull_major, scale.bands, 0.4);
  draw_state_hatching(cr, plan.panel, view, now, 5);
  draw_zone_lines(cr, plan.panel, view, 0.7);
  for (Side side : {Side::top, Side::bottom}) {
    trace_nodes(cr, plan.panel, view, skin_outline(plan.panel, side));
    set_ink(cr, black);
    cairo_set_line_width(cr, 1.4);
    cairo_stroke(cr);
  }
  if (can_slip(lesson)) draw_pencil_marks(cr, plan.panel, view, now.edge_slip, by.slip * view.scale());
}

double largest_turn(const std::vector<LessonSeries>& all) {
  double most = 0;
  for (const auto& s : all)
    for (double t : s.tip_turn) most = std::max(most, std::abs(t));
  return most;
}

void draw_first_page(Sheet& sheet, const Lesson& lesson, const std::vector<LessonSeries>& series) {
  cairo_t* cr = sheet.cr;
  const Box room = sheet.begin_page("Why the iron changes sides");
  const std::size_t moment = telling_moment(lesson, series);
  double y = room.y;
  std::string intro = fmt::format(
      "The same panel, the same heat, three ways of going about it. Drawn: how hard the cloth pulls after step {}.",
      moment);
  for (const auto& c : lesson.changed) intro += " " + c;
  y += draw_text(cr, {room.x, y}, intro, {.width = room.width}).height + gap / 2;

  const double n = static_cast<double>(lesson.ways.size()), width = (room.width - (n - 1) * 1.5 * gap) / n;
  double words = 0;
  for (std::size_t w = 0; w < lesson.ways.size(); ++w) {
    const double x = room.x + static_cast<double>(w) * (width + 1.5 * gap);
    const double head = draw_text(cr, {x, y}, way_letter(w) + "  " + lesson.ways[w].name,
                                  {.size = heading_type, .bold = true, .width = width})
                            .height;
    words = std::max(words, head + draw_text(cr, {x, y + head + 1}, lesson.ways[w].rule, {.width = width}).height);
  }
  y += words + gap / 2;

  const PullScale scale = lesson_scale(lesson);
  const double twist_height = 26, numbers_height = 32, legend_height = 60, chart_height = 122;
  const double picture = room.bottom() - y - twist_height - numbers_height - legend_height - chart_height;
  constexpr double skin_gap = 34;
  const auto view_at = [&](double x) { return SkinView(lesson.ways[0].plan.panel, {x, y, width, picture}, skin_gap); };
  const double metre = view_at(room.x).scale();
  const double turn = largest_turn(series);
  // The largest slip takes a mark nearly to the cloth's edge, the largest twist shows plainly.
  const Exaggeration by{scale.longest_slip > 0 ? round_factor(0.46 * skin_gap / (scale.longest_slip * metre)) : 1,
                        turn > 0 ? round_factor(0.28 / turn) : 1};
  for (std::size_t w = 0; w < lesson.ways.size(); ++w) {
    const double x = room.x + static_cast<double>(w) * (width + 1.5 * gap);
    draw_way(cr, lesson, w, moment, scale, by, view_at(x));
    const LessonSeries& s = series[w];
    const std::size_t at = std::min(moment, s.slip.size() - 1);
    const double below = y + picture;
    draw_twist(cr, {x + width / 2, below + twist_height / 2}, 48, by.twist * s.tip_turn[at]);
    std::string numbers = "twist " + lesson_angle(s.twist[at]);
    if (can_slip(lesson))
      numbers += std::abs(s.slip[at]) < 5e-5
                     ? ", no slip"
                     : fmt::format(", slip {} to the {}", small_length_both(std::abs(s.slip[at])),
                                   s.slip[at] > 0 ? "top" : "bottom");
    draw_text(cr, {x, below + twist_height}, numbers, {.bold = true, .align = Align::centre, .width = width});
  }
  y += picture + twist_height + numbers_height;

  draw_pull_bar(cr, {room.x, y, 0.42 * room.width, legend_height}, scale.bands, scale.open_end, small);
  std::string marks = "Bottom skin rolled over, below or right of the top one. Strokes: puckered, crossed: loose. ";
  if (can_slip(lesson))
    marks +=
        fmt::format("Between them: pencil marks on cloth and trailing edge, their slide drawn {:.0f} times. ", by.slip);
  marks += fmt::format("Two lines: twist of the tip against the root, {:.0f} times as much.", by.twist);
  draw_text(cr, {room.x + 0.45 * room.width, y}, marks, {.width = 0.55 * room.width});
  y = room.bottom() - chart_height;

  const auto curves = lesson_curves(lesson, series);
  const double m = static_cast<double>(curves.size()), chart_width = (room.width - (m - 1) * gap) / m;
  for (std::size_t c = 0; c < curves.size(); ++c)
    draw_chart(cr, {room.x + static_cast<double>(c) * (chart_width + gap), y, chart_width, chart_height},
               {curves[c].title, curves[c].decimals, curves[c].ways, moment}, letters(lesson), small);
}

void draw_second_page(Sheet& sheet, const Lesson& lesson) {
  cairo_t* cr = sheet.cr;
  const Box room = sheet.begin_page("Five questions");
  const auto questions = lesson_questions(lesson);
  double answers = 0;
  const TextStyle answer_style{.width = room.width};
  for (std::size_t i = 0; i < questions.size(); ++i)
    answers += measure_text(cr, fmt::format("{}  {}", i + 1, questions[i].answer), answer_style).height + 3;
  const double fold = room.bottom() - answers - 22;
  double y = room.y;
  y += draw_text(cr, {room.x, y},
                 "Look at the first page or at lesson.html, then write. Curves: A heavy, B dashed, C dotted.",
                 {.width = room.width})
           .height +
       gap / 2;
  const double each = (fold - 2 - y) / static_cast<double>(questions.size());
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const double top = y + each * static_cast<double>(i);
    draw_text(cr, {room.x, top}, std::to_string(i + 1), {.size = 16, .bold = true});
    const double head = draw_text(cr, {room.x + 22, top + 1}, questions[i].question,
                                  {.size = 12.5, .bold = true, .width = room.width - 22})
                            .height;
    constexpr double line = 20;
    for (double at = top + head + line; at <= top + each - 4; at += line)
      stroke_line(cr, {room.x + 22, at}, {room.right(), at}, 0.6, grey);
  }
  const double dash[] = {6, 5};
  cairo_set_dash(cr, dash, 2, 0);
  stroke_line(cr, {room.x, fold}, {room.right(), fold}, 1);
  cairo_set_dash(cr, nullptr, 0, 0);
  draw_text(cr, {room.x, fold + 3}, "Fold back here. What the computation says:", {.bold = true});
  double at = fold + 20;
  for (std::size_t i = 0; i < questions.size(); ++i)
    at += draw_text(cr, {room.x, at}, fmt::format("{}  {}", i + 1, questions[i].answer), answer_style).height + 3;
}

}  // namespace

void write_lesson_sheet(const Lesson& lesson, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = paper_size(paper);
  const Plan& plan = lesson.ways.back().plan;
  const auto series = all_series(lesson);
  write_pdf(path, page, "Lesson: " + plan.the_case.title, [&](cairo_t* cr) {
    Sheet sheet(cr, plan, page, version, 2);
    draw_first_page(sheet, lesson, series);
    draw_second_page(sheet, lesson);
    sheet.finish();
  });
}

}  // namespace evenpull
