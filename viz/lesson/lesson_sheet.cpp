// The hand-out: a page to guess on, a page that shows what came of it, with the answers upside down at its foot.
#include "viz/kit/chart.hpp"
#include "viz/kit/text.hpp"
#include "viz/lesson/lesson_numbers.hpp"
#include "viz/panel/bands.hpp"
#include "viz/panel/marks.hpp"
#include "viz/panel/skin_drawing.hpp"
#include "viz/panel/zone_words.hpp"
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
/// Of the answers: read at a desk, with the sheet turned round, not on a bench.
constexpr double answer_type = 8;
/// Names of zones on a small map; they stand on every other sheet as well.
constexpr double map_type = 9;
constexpr double largest_drawn_turn = 0.28;  ///< rad, of the twist as it is drawn magnified

std::vector<std::string> letters(const Lesson& lesson) {
  std::vector<std::string> list;
  for (std::size_t w = 0; w < lesson.ways.size(); ++w) list.push_back(way_letter(w));
  return list;
}

/// A pencil mark across the trailing edge, made before ironing: thin where it was, heavy where the cloth has taken it.
void draw_pencil_marks(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<float>& slip,
                       double factor, double half = 6) {
  const int last = panel.rows - 1;
  for (std::size_t b = 0; b + 1 < panel.rib_columns.size(); ++b) {
    if (panel.pocket_in(static_cast<int>(b)) >= 0) continue;
    const int from = panel.rib_columns[b], to = panel.rib_columns[b + 1], column = (from + to) / 2;
    const Point top = view.at(panel.nodes[panel.node(Side::top, last, column)]);
    const Point bottom = view.at(panel.nodes[panel.node(Side::bottom, last, column)]);
    const double away = std::hypot(top.x - bottom.x, top.y - bottom.y);
    const double ux = (top.x - bottom.x) / away, uy = (top.y - bottom.y) / away;
    const Point middle{(top.x + bottom.x) / 2, (top.y + bottom.y) / 2};
    const double shift = slip[column] * factor;
    const Point moved{middle.x + shift * ux, middle.y + shift * uy};
    stroke_line(cr, {middle.x + half * uy, middle.y - half * ux}, {middle.x - half * uy, middle.y + half * ux},
                0.12 * half);
    stroke_line(cr, {moved.x + half * uy, moved.y - half * ux}, {moved.x - half * uy, moved.y + half * ux}, 0.5 * half);
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
    trace_outlines(cr, plan.panel, view, skin_outlines(plan.panel, side));
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

// Page 1: what is going to be done, and what one thinks will come of it.

/// Letter, name and rule of each way, side by side. Gives the height taken.
double draw_rules(cairo_t* cr, const Lesson& lesson, const Box& room) {
  const double n = static_cast<double>(lesson.ways.size()), width = (room.width - (n - 1) * 1.5 * gap) / n;
  double words = 0;
  for (std::size_t w = 0; w < lesson.ways.size(); ++w) {
    const double x = room.x + static_cast<double>(w) * (width + 1.5 * gap);
    const double head = draw_text(cr, {x, room.y}, way_letter(w) + "  " + lesson.ways[w].name,
                                  {.size = heading_type, .bold = true, .width = width})
                            .height;
    words = std::max(words, head + draw_text(cr, {x, room.y + head + 1}, lesson.ways[w].rule, {.width = width}).height);
  }
  return words;
}

/// The panel as it lies on the bench, with the names of its zones, so that one can follow the rules with a finger.
void draw_zone_map(cairo_t* cr, const Panel& panel, const Box& box) {
  const SkinView view = fit_skins(panel, box, map_type, true);
  draw_zone_lines(cr, panel, view, 0.7);
  draw_skin_frame(cr, panel, view, map_type);
  draw_zone_words(cr, panel, view, map_type, small, [](const Zone& z) { return ZoneWords{z.label, "", black, false}; });
}

void draw_questions(cairo_t* cr, const std::vector<LessonQuestion>& questions, const Box& room) {
  const double each = room.height / static_cast<double>(questions.size());
  for (std::size_t i = 0; i < questions.size(); ++i) {
    const double top = room.y + each * static_cast<double>(i), left = room.x + 22;
    draw_text(cr, {room.x, top}, std::to_string(i + 1), {.size = 16, .bold = true});
    const double head = draw_text(cr, {left, top + 1}, questions[i].question,
                                  {.size = 12.5, .bold = true, .width = room.right() - left})
                            .height;
    constexpr double line = 19;
    for (double at = top + head + line; at <= top + each - 4; at += line)
      stroke_line(cr, {left, at}, {room.right(), at}, 0.6, grey);
  }
}

void draw_first_page(Sheet& sheet, const Lesson& lesson, const std::vector<LessonQuestion>& questions) {
  cairo_t* cr = sheet.cr;
  const Box room = sheet.begin_page("Why the iron changes sides: guess first");
  double y = room.y;
  y += draw_text(cr, {room.x, y}, order_matters(lesson).headline + " How much, and in what, is for you to guess.",
                 {.bold = true, .width = room.width})
           .height +
       3;
  std::string intro =
      "The same panel, the same passes, three ways of going about it. " + lesson_stage_text(lesson.ways.back().plan);
  for (const auto& c : lesson.changed) intro += " " + c;
  y += draw_text(cr, {room.x, y}, intro, {.width = room.width}).height + gap / 2;
  y += draw_rules(cr, lesson, {room.x, y, room.width, 0}) + gap / 2;
  // Beside the questions, not above them: they need the height.
  constexpr double map_share = 0.42, least_map = 70;
  const double map_width = map_share * room.width, x = room.x + map_width + 1.5 * gap, left = room.bottom() - y;
  const std::string legend =
      std::string(
          "Overleaf: colours say how hard the cloth pulls, strokes that it is puckered, crossed strokes that it is "
          "loose. ") +
      (can_slip(lesson)
           ? "Thin lines between the skins: pencil marks made across the trailing edge before ironing; heavy "
             "ones: where the cloth has taken them. "
           : "") +
      "Two lines: the chord at the root (thin) and at the tip (heavy), turned against each other. Curves: A heavy, B "
      "dashed, C dotted; a line with strokes is a limit.";
  const double words = measure_text(cr, legend, {.width = map_width}).height;
  draw_text(cr, {room.x, room.bottom() - words}, legend, {.width = map_width});
  if (left - words > least_map)
    draw_zone_map(cr, lesson.ways.front().plan.panel, {room.x, y, map_width, left - words - gap / 2});
  draw_questions(cr, questions, {x, y, room.right() - x, left});
}

// Page 2: what came of it.

/// Answers upside down at the foot, so that nobody reads them by mistake. Gives the height taken.
double draw_answers(cairo_t* cr, const std::vector<LessonQuestion>& questions, const Box& room) {
  const TextStyle style{.size = answer_type, .width = room.width};
  std::vector<std::string> lines;
  double height = 0;
  for (std::size_t i = 0; i < questions.size(); ++i) {
    lines.push_back(fmt::format("{}  {}", i + 1, questions[i].answer));
    height += measure_text(cr, lines.back(), style).height + 1;
  }
  cairo_save(cr);
  cairo_translate(cr, room.right(), room.bottom());
  cairo_rotate(cr, M_PI);
  double at = 0;
  for (const auto& line : lines) at += draw_text(cr, {0, at}, line, style).height + 1;
  cairo_restore(cr);
  const double dash[] = {6, 5}, top = room.bottom() - height - 4;
  cairo_set_dash(cr, dash, 2, 0);
  stroke_line(cr, {room.x, top}, {room.right(), top}, 0.8);
  cairo_set_dash(cr, nullptr, 0, 0);
  return height + 8;
}

/// Beside a way: its twist magnified, and under it twist and slide at true scale.
void draw_beside(cairo_t* cr, const Lesson& lesson, std::size_t way, const LessonSeries& s, std::size_t moment,
                 double turn_by, const Box& box) {
  const Plan& plan = lesson.ways[way].plan;
  const std::size_t at = std::min(moment, plan.snapshots.size() - 1);
  const double line = 1.25 * small, reach = 0.46 * box.width, x = box.x + box.width / 2;
  const auto words = [&](double y, const std::string& text) {
    draw_text(cr, {box.x, y}, text, {.align = Align::centre, .width = box.width});
  };
  double y = box.y;
  const double sketch = 2 * reach * std::sin(largest_drawn_turn) + 4;
  words(y, "twist " + lesson_angle(s.twist[at]));
  draw_twist(cr, {x, y + line + sketch / 2}, reach, turn_by * s.tip_turn[at]);
  y += line + sketch;
  words(y, fmt::format("({:.0f} times)", turn_by));
  y += line + 3;
  words(y, "true scale");
  draw_twist(cr, {x, y + line + 6}, reach, s.tip_turn[at]);
  y += line + 14;
  const SkinView view(plan.panel, {box.x, y, box.width, box.bottom() - y}, 3, true);
  for (Side side : {Side::top, Side::bottom}) {
    trace_outlines(cr, plan.panel, view, skin_outlines(plan.panel, side));
    set_ink(cr, black);
    cairo_set_line_width(cr, 0.7);
    cairo_stroke(cr);
  }
  if (can_slip(lesson)) draw_pencil_marks(cr, plan.panel, view, plan.snapshots[at].edge_slip, view.scale(), 2.5);
}

std::string slip_words(const Lesson& lesson, double slip) {
  if (!can_slip(lesson)) return "no slip: two sheets";
  if (std::abs(slip) < 5e-5) return "no slip";
  return fmt::format("slip {}, to {}", small_length_both(std::abs(slip)), slip > 0 ? "top" : "bottom");
}

void draw_second_page(Sheet& sheet, const Lesson& lesson, const std::vector<LessonSeries>& series,
                      const std::vector<LessonQuestion>& questions) {
  cairo_t* cr = sheet.cr;
  Box room = sheet.begin_page("Why the iron changes sides: what came of it");
  room.height -= draw_answers(cr, questions, room);
  const std::size_t moment = telling_moment(lesson, series);
  double y = room.y;
  const OrderMatters matters = order_matters(lesson);
  y +=
      draw_text(cr, {room.x, y}, matters.headline + " " + matters.finding, {.bold = true, .width = room.width}).height +
      4;

  const double n = static_cast<double>(lesson.ways.size()), width = (room.width - (n - 1) * 1.5 * gap) / n;
  const double head = 1.3 * heading_type, numbers = 1.7 * small, legend = 4.6 * small, chart = 104;
  const double picture = room.bottom() - y - head - numbers - legend - chart - gap;
  const auto left_of = [&](std::size_t w) { return room.x + static_cast<double>(w) * (width + 1.5 * gap); };
  constexpr double skin_gap = 26, beside = 84;
  const auto view_at = [&](double x) {
    return SkinView(lesson.ways[0].plan.panel, {x, y + head, width - beside - 6, picture}, skin_gap);
  };
  const PullScale scale = lesson_scale(lesson);
  const double metre = view_at(room.x).scale(), turn = largest_turn(series);
  // The largest slip takes a mark nearly to the cloth's edge, the largest twist shows plainly.
  const Exaggeration by{scale.longest_slip > 0 ? round_factor(0.46 * skin_gap / (scale.longest_slip * metre)) : 1,
                        turn > 0 ? round_factor(largest_drawn_turn / turn) : 1};
  for (std::size_t w = 0; w < lesson.ways.size(); ++w) {
    const double x = left_of(w), under = y + head + picture;
    draw_text(cr, {x, y}, way_letter(w) + "  " + lesson.ways[w].name,
              {.size = heading_type, .bold = true, .width = width});
    draw_way(cr, lesson, w, moment, scale, by, view_at(x));
    draw_beside(cr, lesson, w, series[w], moment, by.twist, {x + width - beside, y + head, beside, picture});
    draw_text(cr, {x, under + 2}, slip_words(lesson, series[w].slip[std::min(moment, series[w].slip.size() - 1)]),
              {.bold = true, .align = Align::centre, .width = width});
  }
  y += head + picture + numbers;

  draw_pull_bar(cr, {room.x, y, 0.4 * room.width, legend}, scale.bands, scale.open_end, small);
  std::string marks = fmt::format("Pull {}. ", moment ? fmt::format("after step {}", moment) : "before ironing");
  if (can_slip(lesson)) marks += fmt::format("Slide of the pencil marks drawn {:.0f} times, ", by.slip);
  marks += fmt::format("{} {:.0f} times; beside it at true scale. More on page 1.",
                       can_slip(lesson) ? "twist" : "Twist drawn", by.twist);
  draw_text(cr, {room.x + 0.43 * room.width, y}, marks, {.width = 0.57 * room.width});
  y = room.bottom() - chart;

  const auto curves = lesson_curves(lesson, series);
  const double m = static_cast<double>(curves.size()), chart_width = (room.width - (m - 1) * gap) / m;
  for (std::size_t c = 0; c < curves.size(); ++c)
    draw_chart(cr, {room.x + static_cast<double>(c) * (chart_width + gap), y, chart_width, chart},
               {curves[c].title, curves[c].decimals, curves[c].ways, moment, curves[c].limits, curves[c].limit_words},
               letters(lesson), small);
}

}  // namespace

void write_lesson_sheet(const Lesson& lesson, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = paper_size(paper);
  const Plan& plan = lesson.ways.back().plan;
  const auto series = all_series(lesson);
  const auto questions = lesson_questions(lesson);
  write_pdf(path, page, "Lesson: " + plan.the_case.title, [&](cairo_t* cr) {
    Sheet sheet(cr, plan, page, version, 2);
    draw_first_page(sheet, lesson, questions);
    draw_second_page(sheet, lesson, series, questions);
    sheet.finish();
  });
}

}  // namespace evenpull
