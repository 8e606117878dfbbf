#include "viz/pictures/order_pictures.hpp"

#include "viz/panel/leaps.hpp"
#include "viz/panel/skin_drawing.hpp"
#include "viz/panel/zone_words.hpp"
#include "viz/pictures/skin_picture.hpp"
#include "viz/words/order_words.hpp"
#include "viz/words/runs.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {
namespace {

constexpr double margin = SkinPicture::margin, type = SkinPicture::type;
constexpr double legend_height = 130;
constexpr double chart_height = 420, line_of_list = 34;
constexpr double dot = 13;
constexpr Colour chosen_ink{0.0, 0.27, 0.52};

struct Axis {
  double low = 0, high = 1, from = 0, to = 1;
  double at(double v) const { return from + (v - low) / (high - low) * (to - from); }
};

// A little more than the values need; never no height at all.
Axis axis_for(double low, double high, double from, double to) {
  const double room = std::max(0.08 * (high - low), 0.02 * std::max(std::abs(high), 1e-9));
  return {low - room, high + room, from, to};
}

void draw_mark(cairo_t* cr, Point at, int number, bool chosen) {
  cairo_arc(cr, at.x, at.y, dot, 0, 2 * M_PI);
  set_ink(cr, chosen ? chosen_ink : white);
  cairo_fill_preserve(cr);
  set_ink(cr, chosen_ink);
  cairo_set_line_width(cr, 3);
  cairo_stroke(cr);
  draw_centred(cr, at, std::to_string(number), {.size = 15, .bold = true, .colour = chosen ? white : chosen_ink});
}

// Marks that would hide one another stand side by side, the later ones to the right of their place.
std::vector<Point> apart(const std::vector<Point>& places, double distance) {
  std::vector<Point> out;
  for (Point at : places) {
    const auto hides = [&](const Point& p) { return std::hypot(p.x - at.x, p.y - at.y) < distance; };
    while (std::any_of(out.begin(), out.end(), hides)) at.x += distance;
    out.push_back(at);
  }
  return out;
}

void draw_chart(cairo_t* cr, const Box& box, const Plan& plan, const std::string& title, const std::string& unit,
                const std::function<double(const TradeOff&)>& value, const std::function<std::string(double)>& text) {
  const auto& points = plan.trade_offs;
  draw_text(cr, {box.x, box.y}, title, {.size = type, .bold = true, .width = box.width});
  const Box plot{box.x + 110, box.y + 50, box.width - 130, box.height - 130};
  double low = 1e300, high = -1e300;
  int most = 0;
  for (const TradeOff& f : points) {
    low = std::min(low, value(f)), high = std::max(high, value(f));
    most = std::max(most, f.turn_overs_a_pass);
  }
  const Axis x{0, most * 1.06 + 0.5, plot.x, plot.right()}, y = axis_for(low, high, plot.bottom(), plot.y);
  stroke_line(cr, {plot.x, plot.bottom()}, {plot.right(), plot.bottom()}, 2);
  stroke_line(cr, {plot.x, plot.y}, {plot.x, plot.bottom()}, 2);
  for (double v : {low, high}) {
    stroke_line(cr, {plot.x - 8, y.at(v)}, {plot.x, y.at(v)}, 2);
    draw_text(cr, {plot.x - 14, y.at(v) - 14}, text(v), {.size = type, .align = Align::right});
    if (text(low) == text(high)) break;
  }
  const int step = std::max(1, most / 6);
  for (int n = 0; n <= most; n += step) {
    stroke_line(cr, {x.at(n), plot.bottom()}, {x.at(n), plot.bottom() + 8}, 2);
    draw_text(cr, {x.at(n), plot.bottom() + 10}, std::to_string(n), {.size = type, .align = Align::centre});
  }
  draw_text(cr, {plot.x, plot.bottom() + 44}, "turn-overs in a pass", {.size = type});
  draw_text(cr, {box.x, box.y + 50}, unit, {.size = 18});
  std::vector<Point> places;
  for (const TradeOff& f : points) places.push_back({x.at(f.turn_overs_a_pass), y.at(value(f))});
  const std::vector<Point> marks = apart(places, 2 * dot + 3);
  for (std::size_t i = 0; i < marks.size(); ++i)
    if (marks[i].x != places[i].x) stroke_line(cr, places[i], marks[i], 1.5);
  for (std::size_t i = 0; i < marks.size(); ++i) draw_mark(cr, marks[i], static_cast<int>(i) + 1, points[i].chosen);
}

}  // namespace

bool write_route_picture(const Plan& plan, int stage, const std::string& path) {
  const auto orders = orders_of_stage(plan, stage);
  if (orders.empty() || !plan.ceiling || stage > *plan.ceiling) return false;
  const Panel& panel = plan.panel;
  const double map = map_height(panel), width = SkinPicture::width - 2 * margin;
  const std::vector<std::string> places = places_by_zone(panel, orders.front());
  std::vector<int> way;
  int turn_overs = -1;
  for (const Run& run : orders.front().runs) {
    for (std::size_t i = 0; i < run.zones.size(); ++i)
      if (run.done.empty() || !run.done[i]) way.push_back(run.zones[i]);
    ++turn_overs;
  }
  write_png(path, {SkinPicture::width, SkinPicture::head_height + map + legend_height}, [&](cairo_t* cr) {
    draw_picture_head(cr, plan, stage, "Order at " + degrees_both(plan.the_case.stages[stage].temperature),
                      "Large numbers: the place of each zone in the pass.");
    const SkinView view = fit_skins(panel, {margin, SkinPicture::head_height, width, map}, type);
    draw_zone_lines(cr, panel, view, 2);
    draw_skin_frame(cr, panel, view, type);
    for (std::size_t i = 0; i + 1 < way.size(); ++i) {
      const Zone &a = panel.zones[way[i]], &b = panel.zones[way[i + 1]];
      if (a.side == b.side && !neighbours(a, b)) draw_leap(cr, view.centre(panel, a), view.centre(panel, b));
    }
    draw_zone_words(cr, panel, view, 18, 40, [&](const Zone& zone) {
      return ZoneWords{places[static_cast<std::size_t>(&zone - panel.zones.data())], zone.label, black, true};
    });
    const std::string words = "Order: " + order_name(plan.order) + ". " + order_rule(plan.order) +
                              " Turn-overs in a pass: " + std::to_string(std::max(turn_overs, 0)) +
                              ". Arrows: the next zone on the same side is no neighbour.";
    draw_text(cr, {margin, SkinPicture::head_height + map + 16}, words, {.size = type, .width = width});
  });
  return true;
}

bool write_turn_over_picture(const Plan& plan, const std::string& path) {
  if (plan.trade_offs.size() < 2) return false;
  const double width = SkinPicture::width - 2 * margin;
  const double list = line_of_list * static_cast<double>(plan.trade_offs.size()) + 100;
  write_png(path, {SkinPicture::width, SkinPicture::head_height + chart_height + list}, [&](cairo_t* cr) {
    draw_picture_head(cr, plan, plan.ceiling.value_or(0), "What turn-overs buy",
                      "Each number is an order; filled: the one chosen.");
    const double half = 0.5 * width - 20;
    draw_chart(
        cr, {margin, SkinPicture::head_height, half, chart_height}, plan, "Worst use of a limit", "",
        [](const TradeOff& f) { return f.use; }, [](double v) { return fmt::format("{:.2f}", v); });
    draw_chart(
        cr, {margin + half + 40, SkinPicture::head_height, half, chart_height}, plan,
        "Worst pull difference, top against bottom", "lb/in",
        [](const TradeOff& f) { return pounds_per_inch(f.difference); },
        [](double v) { return fmt::format("{:.1f}", v); });
    double y = SkinPicture::head_height + chart_height + 6;
    for (std::size_t i = 0; i < plan.trade_offs.size(); ++i, y += line_of_list) {
      const TradeOff& f = plan.trade_offs[i];
      draw_mark(cr, {margin + dot, y + 14}, static_cast<int>(i) + 1, f.chosen);
      draw_text(cr, {margin + 44, y},
                fmt::format("{}: {} turn-over{} a pass, use {:.2f}, pull difference {}", order_name(f.order),
                            f.turn_overs_a_pass, f.turn_overs_a_pass == 1 ? "" : "s", f.use, pull_both(f.difference)),
                {.size = type, .bold = f.chosen});
    }
    draw_text(cr, {margin, y + 8},
              "Coarse mesh, up to the hottest safe stage, without error bars; orders that another one beats in all "
              "three are left out.",
              {.size = type, .width = width});
  });
  return true;
}

}  // namespace evenpull::viz
