#include "viz/sheet/sheet_pages.hpp"
#include "viz/words/window_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {

namespace {

constexpr double rule_type = 14, table_type = 13, outcome_type = 15;
constexpr double row = 30, box_size = 16;
constexpr double gap = 18;

/// The bays, their windows and two lines to write on, the second for what was worked again. Gives the
/// y below.
double draw_bays(cairo_t* cr, const StageWindow& w, const Box& box) {
  const TextStyle plain{.size = table_type}, bold{.size = table_type, .bold = true};
  const double columns[] = {box.x, box.x + 0.26 * box.width, box.x + 0.66 * box.width, box.x + 0.84 * box.width};
  const char* const heads[] = {"bay", "at least to at most", "read", "again"};
  for (int i = 0; i < 4; ++i) draw_text(cr, {columns[i], box.y}, heads[i], bold);
  double y = box.y + row;
  const double first = 1.3 * table_type;
  for (const BayWindow& b : w.bays) {
    draw_text(cr, {columns[0], y}, window_bay(b), plain);
    draw_text(cr, {columns[1], y}, window_inches(b), bold);
    draw_text(cr, {columns[1], y + first}, window_millimetres(b), {.size = least_type});
    for (int i = 2; i < 4; ++i) {
      const double end = i == 2 ? columns[3] - 12 : box.right();
      stroke_line(cr, {columns[i], y + row - 10}, {end, y + row - 10}, 0.8);
    }
    y += row + 8;
  }
  return y;
}

}  // namespace

void draw_go_on_page(Sheet& sheet, int stage) {
  const Plan& plan = sheet.plan;
  const StageWindow& w = *window_after(plan, stage);
  cairo_t* cr = sheet.cr;
  const Box room = sheet.begin_page(fmt::format(
      "After {}: going on to {}?", degrees_f(plan.the_case.stages[static_cast<std::size_t>(stage)].temperature),
      degrees_f(plan.the_case.stages[static_cast<std::size_t>(w.next)].temperature)));
  const double left = 0.38 * room.width;
  double y = room.y;
  for (const std::string& rule : window_rules(plan, w))
    y += draw_text(cr, {room.x, y}, rule, {.size = rule_type, .width = left}).height + 8;
  const double bays = draw_bays(cr, w, {room.x + left + gap, room.y, room.width - left - gap, 0});
  double at = std::max(y, bays) + gap;
  for (const std::string& outcome : window_outcomes(plan, w)) {
    draw_tick_box(cr, {room.x, at + 2}, box_size);
    at += draw_text(cr, {room.x + box_size + 7, at}, outcome, {.size = outcome_type, .bold = true}).height + 6;
  }
}

}  // namespace evenpull::viz
