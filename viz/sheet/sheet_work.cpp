#include "viz/panel/leaps.hpp"
#include "viz/panel/skin_drawing.hpp"
#include "viz/panel/zone_words.hpp"
#include "viz/sheet/run_list.hpp"
#include "viz/sheet/sheet_pages.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/heat_words.hpp"
#include "viz/words/runs.hpp"
#include "viz/words/window_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {

namespace {

constexpr double temperature_type = 44;
constexpr double passes_type = 15, condition_type = 18;
constexpr double largest_place = 40;
constexpr double gap = 12;
constexpr double least_skins = 100;  ///< height under which both skins can hardly be made out

std::string passes_words(const Plan& plan, int stage, const StageOrder& order) {
  if (order.mixed) return fmt::format("Pass {}: dose by zone, see the list", order.passes.front());
  std::string text;
  for (std::size_t i = 0; i < order.passes.size();) {
    std::size_t end = i + 1;
    const std::string words = pass_words(plan, stage, order.passes[i], order.doses[i]);
    while (end < order.passes.size() && pass_words(plan, stage, order.passes[end], order.doses[end]) == words) ++end;
    text += text.empty() ? "Pass " : ".  Pass ";
    for (std::size_t k = i; k < end; ++k)
      text += fmt::format("{}{}", k == i ? "" : k + 1 == end ? " and " : ", ", order.passes[k]);
    text += " " + words;
    i = end;
  }
  return text + ".";
}

double draw_stage_head(Sheet& sheet, int stage, const StageOrder& order, bool only, const Box& room) {
  cairo_t* cr = sheet.cr;
  const Case& c = sheet.plan.the_case;
  const double kelvin = c.stages[stage].temperature;
  const Extent f = draw_text(cr, {room.x, room.y - 4}, degrees_f(kelvin), {.size = temperature_type, .bold = true});
  const Extent d = draw_text(cr, {room.x + f.width + 14, room.y + 10}, degrees_c(kelvin), {.size = 26, .bold = true});
  const double x = room.x + f.width + d.width + 34, width = room.right() - x;
  double y = room.y;
  y +=
      draw_text(cr, {x, y}, passes_words(sheet.plan, stage, order), {.size = passes_type, .bold = true, .width = width})
          .height +
      3;
  std::string words = "True sole temperature by thermometer, never the dial mark";
  words += c.iron.swing > 0 ? fmt::format(" (this iron swings {}: let it settle). ", swing_both(c.iron.swing)) : ". ";
  words += dwell_words(sheet.plan, stage, order.passes);
  if (!only) words += " The passes of this stage follow different orders: mind the page.";
  y += draw_text(cr, {x, y}, words, {.width = width}).height;
  return std::max(f.height - 6, y - room.y);
}

std::string list_words(const StageOrder& order, bool reachable, bool splits_runs, bool on_next_page) {
  std::string text = "Skins: the order of work. List";
  text += on_next_page ? " (next page): " : ": ";
  text += splits_runs ? "lines of one number are one run, then " : "each line is one run, then ";
  text += reachable ? "change sides. " : "turn over. ";
  return text + (order.passes.size() > 1 ? "Tick the box under the pass." : "Tick each when done.");
}

struct Layout {
  Box skins, list;
  bool beside = false;
  bool pages_of_its_own = false;  ///< the list; the skins then have this page to themselves
};

/// The list goes under the skins or, in one or more columns, beside them: whichever lets the skins be larger.
Layout lay_out(const Panel& panel, const RunList& list, const Box& body) {
  const auto scale = [&](const Box& box) { return fit_skins(panel, box, least_type).scale(); };
  const double under = list.height(body.width);
  Layout best{{body.x, body.y, body.width, body.height - under - gap},
              {body.x, body.bottom() - under, body.width, under},
              false};
  // Under is preferred when it is nearly as good: pages of one plan should look alike.
  double best_scale = 1.08 * scale(best.skins);
  for (int columns = 1; columns <= 4; ++columns) {
    const double w = list.width_of(columns);
    if (w > 0.6 * body.width || list.height(w) > body.height) continue;
    const Layout trial{
        {body.x, body.y, body.width - w - gap, body.height}, {body.right() - w, body.y, w, body.height}, true};
    if (scale(trial.skins) <= best_scale) continue;
    best = trial;
    best_scale = scale(trial.skins);
  }
  if (best.skins.height < least_skins) return {body, {}, true, true};
  return best;
}

/// Within a run, where the next zone is not the one beside. In small zones arrows would hide among the numbers, which say
/// the order by themselves.
void draw_leaps(cairo_t* cr, const Panel& panel, const SkinView& view, const StageOrder& order) {
  for (const auto& run : order.runs)
    for (std::size_t i = 1; i < run.zones.size(); ++i) {
      const Zone &from = panel.zones.at(run.zones[i - 1]), &to = panel.zones.at(run.zones[i]);
      const bool done = !run.done.empty() && (run.done[i - 1] || run.done[i]);
      if (done || from.side != to.side || neighbours(from, to)) continue;
      const Extent room = room_in_zone(panel, from, view);
      constexpr double least_room = 2.6 * least_type;
      if (std::min(room.width, room.height) < least_room) continue;
      draw_leap(cr, view.centre(panel, from), view.centre(panel, to),
                {.clear = 0.42 * std::max(room.width, room.height), .line_width = 1.2, .head = 8});
    }
}

}  // namespace

void draw_work_page(Sheet& sheet, int stage, const StageOrder& order, bool only_order_of_stage) {
  const Plan& plan = sheet.plan;
  cairo_t* cr = sheet.cr;
  std::string passes;
  for (int p : order.passes) passes += (passes.empty() ? "" : ", ") + std::to_string(p);
  const std::string condition = stage_condition(plan, stage);
  std::string title = condition.empty() ? fmt::format("Stage {} of {}", stage + 1, *plan.ceiling + 1)
                                        : fmt::format("Only if: stage {}", stage + 1);
  if (!only_order_of_stage) title += fmt::format(", pass {}", passes);
  Box room = sheet.begin_page(title);
  const bool begins = order.passes.front() == 1;
  for (const std::string& words : {condition, begins ? fastened_first(plan.the_case, stage) : std::string()}) {
    if (words.empty()) continue;
    const double taken =
        draw_text(cr, {room.x, room.y}, words, {.size = condition_type, .bold = true, .width = room.width}).height +
        gap;
    room.y += taken, room.height -= taken;
  }
  const double head = draw_stage_head(sheet, stage, order, only_order_of_stage, room) + gap;
  const Box body{room.x, room.y + head, room.width, room.height - head};

  const RunList list(cr, plan.panel, order);
  const auto words_if = [&](bool next_page) {
    return list_words(order, plan.the_case.both_sides_reachable, list.splits_runs(), next_page);
  };
  const double words_height = measure_text(cr, words_if(false), {.width = body.width}).height;
  const Layout layout = lay_out(plan.panel, list, {body.x, body.y, body.width, body.height - words_height - gap / 2});
  const SkinView view = fit_skins(plan.panel, layout.skins, least_type, true);
  const double words_y = layout.beside ? body.bottom() - words_height : layout.list.y;
  draw_text(cr, {body.x, words_y}, words_if(layout.pages_of_its_own), {.width = body.width});
  if (!layout.pages_of_its_own)
    list.draw(layout.beside ? layout.list : Box{layout.list.x, words_y + words_height + gap / 2, layout.list.width, 0});

  const auto places = places_by_zone(plan.panel, order);
  draw_zone_lines(cr, plan.panel, view, 1);
  draw_skin_frame(cr, plan.panel, view, least_type);
  draw_leaps(cr, plan.panel, view, order);
  draw_zone_words(cr, plan.panel, view, least_type, largest_place, [&](const Zone& zone) {
    return ZoneWords{places[&zone - plan.panel.zones.data()], zone.label, black, true};
  });
  for (std::size_t first = 0; layout.pages_of_its_own && first < list.lines();)
    first = list.draw_part(sheet.begin_page(title + ": list"), first);
}

}  // namespace evenpull::viz
