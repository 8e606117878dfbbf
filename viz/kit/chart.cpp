#include "viz/kit/chart.hpp"

#include "viz/kit/text.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace evenpull::viz {

namespace {

// Three inks of different lightness, and three kinds of line: heavy, dashed, dotted.
struct Pen {
  Colour ink;
  double width;
  std::array<double, 2> dash;
};
constexpr std::array<Pen, 3> pens{{
    {{0.62, 0.30, 0.05}, 2.4, {0, 0}},
    {{0.10, 0.45, 0.55}, 2.0, {7, 4}},
    {{0.05, 0.05, 0.05}, 2.0, {1.6, 3}},
}};

void use_pen(cairo_t* cr, std::size_t curve) {
  const Pen& pen = pens[curve % pens.size()];
  set_ink(cr, pen.ink);
  cairo_set_line_width(cr, pen.width);
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_dash(cr, pen.dash.data(), pen.dash[0] > 0 ? 2 : 0, 0);
}

/// A number that is round (1, 2, 5) and not below the given one.
double round_up(double v) {
  if (!(v > 0)) return 1;
  const double power = std::pow(10.0, std::floor(std::log10(v)));
  for (double m : {1.0, 2.0, 5.0})
    if (m * power >= v * (1 - 1e-9)) return m * power;
  return 10 * power;
}

/// Heavy, with strokes on the side that is out of bounds, so that no curve or line of the grid is taken for it.
void draw_limits(cairo_t* cr, const Chart& chart, const Box& plot, const std::function<double(double)>& y) {
  constexpr double line = 1.6, apart = 7, stroke = 4;
  for (double v : chart.limits) {
    const double at = y(v), out = v > 0 ? -stroke : stroke;
    stroke_line(cr, {plot.x, at}, {plot.right(), at}, line);
    for (double x = plot.x + apart; x < plot.right(); x += apart) stroke_line(cr, {x, at}, {x - stroke, at + out}, 0.6);
  }
}

}  // namespace

void draw_chart(cairo_t* cr, const Box& box, const Chart& chart, const std::vector<std::string>& letters,
                double type_size) {
  double low = 0, high = 0;
  std::size_t longest = 1;
  for (const auto& c : chart.curves) {
    for (double v : c) low = std::min(low, v), high = std::max(high, v);
    longest = std::max(longest, c.size());
  }
  for (double v : chart.limits) low = std::min(low, v), high = std::max(high, v);
  // Lines of the grid at whole multiples of a round step, zero among them.
  const double step = round_up(std::max(high - low, 1e-9) / 3);
  const int first = static_cast<int>(std::floor(low / step + 1e-9)),
            last = std::max(first + 1, static_cast<int>(std::ceil(high / step - 1e-9)));
  int decimals = chart.decimals;
  while (decimals < 4 && std::abs(step * std::pow(10, decimals) - std::round(step * std::pow(10, decimals))) > 1e-6)
    ++decimals;
  const auto words = [&](int i) {
    const std::string text = fmt::format("{:.{}f}", i == 0 ? 0.0 : std::abs(i) * step, decimals);
    return i < 0 ? "−" + text : text;
  };

  double title =
      draw_text(cr, {box.x, box.y}, chart.title, {.size = type_size, .bold = true, .width = box.width}).height;
  if (!chart.limit_words.empty())
    title += draw_text(cr, {box.x, box.y + title}, chart.limit_words, {.size = type_size, .width = box.width}).height;
  double left = 0;
  for (int i = first; i <= last; ++i) left = std::max(left, measure_text(cr, words(i), {.size = type_size}).width);
  const double right = 1.2 * type_size;
  const Box plot{box.x + left + 5, box.y + title + 0.6 * type_size, box.width - left - 5 - right,
                 box.height - title - 2.4 * type_size};
  const auto x = [&](double i) { return plot.x + plot.width * i / std::max<std::size_t>(1, longest - 1); };
  const auto y = [&](double v) { return plot.bottom() - plot.height * (v - first * step) / ((last - first) * step); };
  for (int i = first; i <= last; ++i) {
    stroke_line(cr, {plot.x, y(i * step)}, {plot.right(), y(i * step)}, i == 0 ? 1.2 : 0.5, i == 0 ? black : grey);
    draw_text(cr, {plot.x - 5, y(i * step) - 0.6 * type_size}, words(i), {.size = type_size, .align = Align::right});
  }
  draw_limits(cr, chart, plot, y);
  if (chart.mark > 0)
    stroke_line(cr, {x(static_cast<double>(chart.mark)), plot.y}, {x(static_cast<double>(chart.mark)), plot.bottom()},
                0.8, grey);

  std::vector<std::pair<double, std::size_t>> ends;
  for (std::size_t c = 0; c < chart.curves.size(); ++c) {
    const auto& curve = chart.curves[c];
    for (std::size_t i = 0; i < curve.size(); ++i)
      i == 0 ? cairo_move_to(cr, x(0), y(curve[0])) : cairo_line_to(cr, x(static_cast<double>(i)), y(curve[i]));
    use_pen(cr, c);
    cairo_stroke(cr);
    cairo_set_dash(cr, nullptr, 0, 0);
    if (!curve.empty()) ends.emplace_back(y(curve.back()), c);
  }
  // Letters beside the ends of their curves, pushed apart where the ends meet.
  std::sort(ends.begin(), ends.end());
  double above = -1e9;
  const double apart = 1.05 * type_size, room = apart * static_cast<double>(ends.size());
  for (std::size_t k = 0; k < ends.size(); ++k) {
    const double lowest = plot.bottom() + 0.5 * type_size - room + apart * static_cast<double>(k + 1);
    const double at = std::max(above + apart, std::min(ends[k].first, lowest));
    draw_text(cr, {plot.right() + 4, at - 0.6 * type_size}, letters.at(ends[k].second),
              {.size = type_size, .bold = true});
    above = at;
  }
  draw_text(cr, {plot.x, plot.bottom() + 0.3 * type_size}, "start", {.size = type_size});
  draw_text(cr, {plot.right(), plot.bottom() + 0.3 * type_size}, fmt::format("step {}", longest - 1),
            {.size = type_size, .align = Align::right});
}

void draw_curve_sample(cairo_t* cr, Point from, double length, std::size_t curve) {
  cairo_move_to(cr, from.x, from.y);
  cairo_line_to(cr, from.x + length, from.y);
  use_pen(cr, curve);
  cairo_stroke(cr);
  cairo_set_dash(cr, nullptr, 0, 0);
}

}  // namespace evenpull::viz
