#include "viz/panel/bands.hpp"
#include "viz/panel/skin_drawing.hpp"
#include "viz/panel/zone_means.hpp"
#include "viz/panel/zone_words.hpp"
#include "viz/sheet/sheet_pages.hpp"
#include "viz/words/check_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {

namespace {

constexpr double heading_type = 14;
constexpr double check_type = 12.5, largest_check_type = 16;
constexpr double box_size = 14;
constexpr double gap = 16;
constexpr double least_notebook = 120;  ///< height: four lines to write on and the heading

double draw_checks(cairo_t* cr, Point at, const std::vector<std::string>& checks, double width, double type,
                   bool measure_only) {
  double y = at.y;
  for (const auto& check : checks) {
    const TextStyle style{.size = type, .width = width - box_size - 8};
    if (!measure_only) draw_tick_box(cr, {at.x, y + 1}, box_size);
    y += (measure_only ? measure_text(cr, check, style) : draw_text(cr, {at.x + box_size + 8, y}, check, style)).height;
    y += 0.6 * type;
  }
  return y - at.y;
}

/// Lines to write on.
void draw_notebook(cairo_t* cr, const Box& box) {
  static const char* const words[] = {"sole before", "sole after", "trailing edge bow", "end rib bow", "hinge line bow",
                                      "twist",       "slip",       "date, hand"};
  constexpr double least_line = 24;
  const int n = static_cast<int>(std::size(words));
  draw_text(cr, {box.x, box.y}, "Measured", {.size = heading_type, .bold = true});
  const double top = box.y + 20;
  const int columns = (box.bottom() - top) / n >= least_line ? 1 : 2;
  const int rows = (n + columns - 1) / columns;
  const double line = std::min(30.0, (box.bottom() - top) / rows), width = box.width / columns - 10;
  for (int i = 0; i < n; ++i) {
    const int column = i / rows;
    const double x = box.x + column * (width + 20), y = top + (i % rows) * line + line - 5;
    const Extent size = draw_text(cr, {x, y - 12}, words[i]);
    stroke_line(cr, {x + size.width + 6, y + 2}, {x + width, y + 2}, 0.8);
  }
}

/// The map of expected pull at the top of the box; gives the y below it.
double draw_expected(cairo_t* cr, const Plan& plan, const Snapshot& now, const Box& box) {
  const double words = draw_text(cr, {box.x, box.y},
                                 "In each zone: the larger pull in lb/in. Hatched: puckered. Crossed: loose.",
                                 {.width = box.width})
                           .height +
                       2;
  const auto means = zone_means(plan.panel, now.pull_major);
  const SkinView view = fit_skins(plan.panel, {box.x, box.y + words, box.width, box.height - words}, least_type, true);
  draw_state_hatching(cr, plan.panel, view, now, 7);
  draw_zone_lines(cr, plan.panel, view, 0.8);
  draw_skin_frame(cr, plan.panel, view, least_type);
  draw_zone_words(cr, plan.panel, view, least_type, 22, [&](const Zone& zone) {
    const double mean = means[&zone - plan.panel.zones.data()];
    const bool hatched = std::any_of(zone.quads.begin(), zone.quads.end(), [&](int q) { return now.state[q] < 2; });
    return ZoneWords{number_text(pounds_per_inch(mean), 1), "", black, hatched};
  });
  return view.whole().bottom() + skin_margins(least_type).label;
}

}  // namespace

void draw_check_page(Sheet& sheet, int stage) {
  const Plan& plan = sheet.plan;
  cairo_t* cr = sheet.cr;
  const std::string temperature = degrees_f(plan.the_case.stages[stage].temperature);
  const StageWindow* window = window_after(plan, stage);
  const bool last = stage >= *plan.ceiling && !window;
  const Box room = sheet.begin_page(
      fmt::format("After {}: {}", temperature, last ? "check, then stop" : "check before going hotter"));
  const double left = 0.46 * room.width;
  const auto checks = checks_after_stage(plan, stage);
  const auto checks_height = [&](double type) { return draw_checks(cr, {}, checks, left, type, true); };

  const Snapshot* now = stage_end(plan, stage);
  const double x = room.x + left + gap, width = room.right() - x;
  double y = room.y;
  y += draw_text(cr, {x, y}, "Expected mean pull, chordwise / spanwise", {.size = heading_type, .bold = true}).height +
       3;
  for (const auto& line : expected_sentences(plan, stage))
    y += draw_text(cr, {x, y}, line, {.width = width}).height + 2;
  const double under_checks = room.height - gap / 2 - least_notebook;
  const bool fits_under = checks_height(least_type) <= under_checks;
  const double kept = fits_under ? 0 : least_notebook + gap;  // long checks: the map gives way
  if (now) y = draw_expected(cr, plan, *now, {x, y + 6, width, room.bottom() - y - 6 - kept});

  // The notebook goes where room is left: under the map, and the checks then get larger type; else under the checks.
  double type = check_type;
  const bool right = room.bottom() - y >= least_notebook + gap;
  while (type - 0.25 >= least_type && checks_height(type) > (right ? room.height : under_checks)) type -= 0.25;
  if (right)
    while (type + 0.5 <= largest_check_type && checks_height(type + 0.5) <= room.height) type += 0.5;
  draw_checks(cr, {room.x, room.y}, checks, left, type, false);
  const double under = room.y + checks_height(type) + gap / 2;
  draw_notebook(
      cr, right ? Box{x, y + gap, width, room.bottom() - y - gap} : Box{room.x, under, left, room.bottom() - under});
}

}  // namespace evenpull::viz
