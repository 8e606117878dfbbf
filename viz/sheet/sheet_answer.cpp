#include "viz/panel/skin_drawing.hpp"
#include "viz/panel/zone_words.hpp"
#include "viz/sheet/reasons.hpp"
#include "viz/sheet/sheet_flow.hpp"
#include "viz/sheet/sheet_pages.hpp"
#include "viz/words/after_iron_words.hpp"
#include "viz/words/cautions.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/runs.hpp"
#include "viz/words/time_words.hpp"
#include "viz/words/verdict_words.hpp"
#include "viz/words/wording.hpp"
#include "viz/words/zone_names.hpp"

#include <algorithm>
#include <cctype>

namespace evenpull::viz {

namespace {

constexpr double answer_type = 76;  ///< the number that must be read from across the bench
constexpr double second_type = 34;
constexpr double no_verdict_type = 40;
constexpr double loose_type = 60, loose_words_type = 16;  ///< that the cloth does not come tight, and where
constexpr double heading_type = 14;
constexpr double gap = 14;
constexpr std::size_t readings_shown = 4, least_readings = 1;
constexpr double most_why = 0.3;       ///< of a page: what is left of the reasons, above the order at a glance
constexpr double least_drawing = 125;  ///< height of the order at a glance below which it gets its own page

/// Loose cloth goes before everything else, across the page; gives the height taken.
double draw_loose(cairo_t* cr, const Plan& plan, Point at, double width) {
  double y = at.y;
  if (const auto headline = loose_headline(plan); !headline.empty())
    y += draw_text(cr, {at.x, y}, headline, {.size = loose_type, .bold = true, .width = width}).height + 2;
  if (const auto loose = loose_sentence(plan); !loose.empty())
    y += draw_text(cr, {at.x, y}, loose, {.size = loose_words_type, .bold = true, .width = width}).height + 8;
  return y - at.y;
}

/// The number itself; gives the height taken.
double draw_answer(cairo_t* cr, const Plan& plan, Point at, double width) {
  double y = at.y;
  std::string heading = verdict_heading(plan);
  if (!plan.first_look())
    std::transform(heading.begin(), heading.end(), heading.begin(), [](unsigned char c) { return std::toupper(c); });
  y += draw_text(cr, {at.x, y}, heading, {.size = 16, .bold = true, .width = width}).height;
  if (!plan.ceiling) {
    const double size = plan.advice.never_tight ? 24 : coats_tauten(plan.the_case) ? no_verdict_type : 60;
    y += draw_text(cr, {at.x, y}, no_stage_text(plan), {.size = size, .bold = true, .width = width}).height + 4;
    y += draw_text(cr, {at.x, y}, verdict_note(plan), {.size = reason_type, .bold = true, .width = width}).height;
    return y - at.y;
  }
  const double kelvin = plan.the_case.stages[*plan.ceiling].temperature;
  const TextStyle big{.size = answer_type, .bold = true};
  const Extent f = draw_text(cr, {at.x, y - 6}, degrees_f(kelvin), big);
  y += f.height - 12;
  const Extent c = draw_text(cr, {at.x, y}, degrees_c(kelvin), {.size = second_type, .bold = true});
  draw_text(cr, {at.x + c.width + 12, y + 5}, "true sole temperature,\nby thermometer",
            {.width = width - c.width - 12});
  y += c.height;
  if (const auto time = time_sentence(plan); !time.empty())
    y += 6 + draw_text(cr, {at.x, y + 6}, time, {.size = reason_type, .bold = true, .width = width}).height;
  return y - at.y;
}

/// The first `shown` of the worst readings; gives the height, drawn or not.
double draw_worst(cairo_t* cr, const Plan& plan, Point at, double width, std::size_t shown, bool measure_only) {
  auto readings = worst_readings(plan);
  if (readings.size() > shown) readings.resize(shown);
  if (readings.empty()) return 0;
  double y = at.y;
  const auto line = [&](double x, const std::string& text, const TextStyle& style) {
    return measure_only ? measure_text(cr, text, style) : draw_text(cr, {x, y}, text, style);
  };
  const int stage = plan.ceiling.value_or(0);
  y += line(at.x,
            (stage > 0 ? "Worst up to " : "Worst at ") + degrees_f(plan.the_case.stages[stage].temperature) +
                " (limit: 1.00)",
            {.size = heading_type, .bold = true, .width = width})
           .height +
       2;
  double number = 0;
  for (const auto& r : readings)
    number = std::max(number, measure_text(cr, use_text(r), {.size = 15, .bold = true}).width + 10);
  for (const auto& r : readings) {
    const double h = line(at.x, use_text(r), {.size = 15, .bold = true}).height;
    const double t = line(at.x + number,
                          limit_text(r) + ": " + place_text(plan.panel, r.where) + ", " + moment_text(r.when),
                          {.width = width - number})
                         .height;
    y += std::max(h, t) + 1;
  }
  return y - at.y;
}

double draw_order_words(cairo_t* cr, const Plan& plan, Point at, double width, bool measure_only) {
  if (!plan.ceiling) return 0;
  double y = at.y;
  const auto line = [&](const std::string& text, const TextStyle& style) {
    y += (measure_only ? measure_text(cr, text, style) : draw_text(cr, {at.x, y}, text, style)).height + 2;
  };
  line("Order: " + order_name(plan.order), {.size = heading_type, .bold = true, .width = width});
  line(order_rule(plan.order), {.width = width});
  const bool begun = !plan.steps.empty() && plan.steps.front().done;
  if (begun) line("Goes on from work half done: zones that are done say so.", {.bold = true, .width = width});
  if (!one_order_throughout(plan, *plan.ceiling))
    line(begun ? "Drawn here: the pass begun. Others differ: see the stage pages."
               : "Drawn here: the first pass. Others differ: see the stage pages.",
         {.bold = true, .width = width});
  return y - at.y;
}

/// Reasons that page 1 had no room for; gives the height, drawn or not, with a gap below.
double draw_why_continued(cairo_t* cr, const std::vector<std::string>& reasons, Point at, double width,
                          bool measure_only) {
  if (reasons.empty()) return 0;
  const std::string heading = "Why, continued";
  const TextStyle style{.size = heading_type, .bold = true};
  const double head = measure_text(cr, heading, style).height + 2;
  if (!measure_only) draw_text(cr, at, heading, style);
  return head + draw_items_in_two(cr, {at.x, at.y + head}, reasons, width, measure_only) + gap;
}

/// The stage that the next step belongs to.
int first_stage_left(const Plan& plan) {
  for (const Step& s : plan.steps)
    if (!s.done) return s.stage;
  return 0;
}

void draw_glance(cairo_t* cr, const Plan& plan, const Box& box) {
  const Panel& panel = plan.panel;
  const SkinView view = fit_skins(panel, box, least_type);
  std::vector<std::string> places(panel.zones.size());
  if (plan.ceiling) {
    const auto orders = orders_of_stage(plan, first_stage_left(plan));
    if (!orders.empty()) places = places_by_zone(panel, orders.front());
  }
  draw_zone_lines(cr, panel, view, 0.8);
  draw_skin_frame(cr, panel, view, least_type);
  draw_zone_words(cr, panel, view, least_type, 26, [&](const Zone& zone) {
    return ZoneWords{places[&zone - panel.zones.data()], zone.label, black};
  });
}

/// The cautions stand at the foot of the first page whatever else is on it. Gives the box they took.
Box draw_cautions(cairo_t* cr, const Plan& plan, const Box& room) {
  auto sentences = cautions();
  for (std::string& s : preparations(plan)) sentences.push_back(std::move(s));
  constexpr double inner = 10;
  const double width = room.width - 2 * inner;
  const double height = draw_items_in_two(cr, {}, sentences, width, true) + 18;
  const Box box{room.x, room.bottom() - height, room.width, height};
  stroke_box(cr, box, 1.6);
  // The heading sits in the border to save a line.
  const TextStyle heading{.size = heading_type, .bold = true};
  const Extent size = measure_text(cr, "Before you start", heading);
  fill_box(cr, {box.x + inner - 4, box.y - size.height / 2, size.width + 8, size.height}, white);
  draw_text(cr, {box.x + inner, box.y - size.height / 2}, "Before you start", heading);
  draw_items_in_two(cr, {box.x + inner, box.y + 11}, sentences, width, false);
  return {box.x, box.y - size.height / 2, box.width, box.height + size.height / 2};
}

}  // namespace

void draw_answer_page(Sheet& sheet) {
  const Plan& plan = sheet.plan;
  cairo_t* cr = sheet.cr;
  Box room = sheet.begin_page("Ironing plan");
  const double page_room = room.height;
  const Box warn = draw_cautions(cr, plan, room);
  const double loose = draw_loose(cr, plan, {room.x, room.y}, room.width);
  room.y += loose, room.height -= loose;

  const double left = 0.4 * room.width - gap;
  const double right_x = room.x + 0.4 * room.width, right = 0.6 * room.width;
  const double answer = draw_answer(cr, plan, {room.x, room.y}, left);
  std::vector<std::string> reasons_left;
  const double reasons =
      draw_reasons(cr, reasons_of(plan), {right_x, room.y, right, warn.y - gap / 2 - room.y}, reasons_left);
  const auto go_on = [&] {
    if (reasons_left.empty()) return;
    Flow flow(sheet, "Ironing plan: why");
    flow.lists({{"Why, continued", reasons_left}});
  };
  const double upper = room.y + std::max(answer, reasons) + gap;
  Box lower{room.x, upper, room.width, warn.y - gap / 2 - upper};

  // Skins left, words right in what is left between; fewer readings if that makes it fit (the reason names the worst
  // one too, and all are in the record).
  const double words_width = 0.44 * room.width;
  const double order = draw_order_words(cr, plan, {}, words_width, true);
  const auto worst = [&](std::size_t n) { return draw_worst(cr, plan, {}, words_width, n, true); };
  const double between = plan.ceiling ? gap / 2 : 0;
  std::size_t shown = readings_shown;
  while (shown > least_readings && order + between + worst(shown) > lower.height) --shown;
  const bool fits = lower.height >= least_drawing && order + between + worst(shown) <= lower.height;
  double x = room.right() - words_width, y = lower.y;
  if (!fits) {
    // Long reasons: the numbers stay with them, or stand under the answer where more of them fit; the order gets a page of
    // its own.
    const Point under_answer{room.x, room.y + answer + gap}, under_reasons{right_x, room.y + reasons + gap};
    const double foot = warn.y - gap / 2;
    const auto that_fit = [&](double width, double height) {
      std::size_t n = readings_shown;
      while (n > 0 && draw_worst(cr, plan, {}, width, n, true) > height) --n;
      return n;
    };
    const std::size_t beside = that_fit(right, foot - under_reasons.y), under = that_fit(left, foot - under_answer.y);
    if (under > beside) draw_worst(cr, plan, under_answer, left, under, false);
    else if (beside > 0) draw_worst(cr, plan, under_reasons, right, beside, false);
    // What is left of the reasons goes above the order, where that leaves it room; else it has a page of its own too.
    const bool above = plan.ceiling &&
                       draw_why_continued(cr, reasons_left, {}, room.width, true) < most_why * page_room;
    if (!above) go_on();
    if (!plan.ceiling) return;
    room = sheet.begin_page("Ironing plan: the order at a glance");
    double taken = above ? draw_why_continued(cr, reasons_left, {room.x, room.y}, room.width, false) : 0;
    taken += draw_order_words(cr, plan, {room.x, room.y + taken}, room.width, false) + gap;
    draw_glance(cr, plan, {room.x, room.y + taken, room.width, room.height - taken});
    return;
  }
  draw_order_words(cr, plan, {x, y}, words_width, false);
  draw_worst(cr, plan, {x, y + order + between}, words_width, shown, false);
  draw_glance(cr, plan, {lower.x, lower.y, lower.width - words_width - gap, lower.height});
}

}  // namespace evenpull::viz
