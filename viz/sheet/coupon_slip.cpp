#include "viz/sheet/coupon_slip.hpp"

#include "viz/kit/dimension.hpp"
#include "viz/kit/text.hpp"
#include "viz/sheet/half_page.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <cmath>

namespace evenpull {
namespace {

using namespace viz;

constexpr double points_per_metre = 72 / 0.0254;
constexpr double drawing_most = 115;   // points high and wide, the boards with it
constexpr double dimension_room = 22;  // beside the drawing
constexpr double row_height = 21;      // to write in
constexpr double fill_in_rule = 0.7;

// One to a whole number that people have on a scale.
double scale_for(double metres) {
  for (const double scale : {4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0})
    if (metres / scale * points_per_metre <= drawing_most) return scale;
  return 50;
}

void draw_boards(cairo_t* cr, const Box& outer, const Box& inner) {
  fill_box(cr, outer, pale);
  fill_box(cr, inner, white);
  stroke_box(cr, outer, 1.2);
  stroke_box(cr, inner, 1.2);
  // Two boards run through, two stand between.
  for (const double y : {inner.y, inner.bottom()}) {
    stroke_line(cr, {outer.x, y}, {inner.x, y}, 0.8);
    stroke_line(cr, {inner.right(), y}, {outer.right(), y}, 0.8);
  }
}

// A line from words to what they mean.
void point_out(cairo_t* cr, Point words, Point at, const std::string& text, double width) {
  draw_text(cr, words, text, {.width = width});
  draw_arrow(cr, {words.x - 4, words.y + least_type * 0.7}, at, 0.7, 5);
}

void draw_square(cairo_t* cr, const CouponSlip& slip, const Box& all) {
  const double across = slip.sizes.inside + 2 * slip.sizes.board_width;
  const double scale = scale_for(across), unit = points_per_metre / scale;
  const Box outer{all.x + dimension_room, all.y, across * unit, across * unit};
  const Box inner = outer.inset(slip.sizes.board_width * unit);
  draw_boards(cr, outer, inner);
  const Point middle{inner.x + inner.width / 2, inner.y + inner.height / 2};
  const double radius = slip.sizes.disc * unit / 2;
  cairo_arc(cr, middle.x, middle.y, radius, 0, 2 * M_PI);
  set_ink(cr, pale);
  cairo_fill_preserve(cr);
  set_ink(cr, black);
  cairo_set_line_width(cr, 1.2);
  cairo_stroke(cr);
  // The straight edge, beside the middle so that the disc is seen.
  const Box edge{outer.x - 4, middle.y - 0.25 * radius, outer.width + 8, 0.5 * radius};
  stroke_box(cr, edge, 0.8);
  fill_box(cr, {middle.x - 2, middle.y - 2, 4, 4}, black);
  const double below = outer.bottom() + 12;
  draw_dimension(cr, {inner.x, below}, {inner.right(), below}, coupon_length_text(slip.sizes.inside, slip.units),
                 least_type);
  const double x = outer.right() + 24, width = all.right() - x;
  draw_text(cr, {x, below - least_type / 2}, fmt::format("scale 1 : {:.0f}", scale));
  point_out(cr, {x, outer.y}, {outer.right() - slip.sizes.board_width * unit / 2, outer.y + 8},
            coupon_board_words(slip.sizes, slip.units), width);
  point_out(cr, {x, outer.y + 0.28 * outer.height}, {inner.right() - 5, inner.y + 6}, "cloth, cemented all round",
            width);
  point_out(cr, {x, middle.y - least_type}, {edge.right() - 3, middle.y}, "straight edge across two boards", width);
  point_out(cr, {x, middle.y + 0.25 * outer.height}, {middle.x + 0.7 * radius, middle.y + 0.6 * radius},
            fmt::format("disc, {} across; gauge at its middle, weight round it",
                        coupon_length_text(slip.sizes.disc, slip.units)),
            width);
}

double height_of_drawing(const CouponSlip& slip) {
  const double across = slip.sizes.inside + 2 * slip.sizes.board_width;
  return across * points_per_metre / scale_for(across) + 12 + least_type + 2;
}

std::string one_yarn_a_line(std::string words) {
  if (const auto comma = words.find(", "); comma != std::string::npos) words.replace(comma, 2, "\n");
  return words;
}

void draw_results(HalfPages& pages, const CouponSlip& slip) {
  std::vector<std::vector<std::string>> rows;
  bool shrink = false;
  for (const auto& s : slip.stages) shrink = shrink || !s.shrink.empty();
  for (const auto& s : slip.stages) {
    rows.push_back({s.stage, s.pull, s.range});
    if (shrink) rows.back().push_back(one_yarn_a_line(s.shrink));
  }
  std::vector<HalfPageColumn> columns{
      {"stage", 0.14}, {"pull", shrink ? 0.27 : 0.36, true}, {"19 times in 20 within", shrink ? 0.35 : 0.5}};
  if (shrink) columns.push_back({"free shrink", 0.24});
  pages.table(columns, rows);
}

// Lines to write on.
void draw_fill_in(cairo_t* cr, HalfPages& pages, const CouponSlip& slip) {
  const auto weights = coupon_weights(slip.units);
  const std::vector<std::string> heads{"stage", "no weight", weights[0], weights[1], "warp", "fill"};
  constexpr double shares[] = {0, 0.16, 0.38, 0.54, 0.70, 0.85};  // of the width, where a column begins
  const double top = pages.take(row_height * static_cast<double>(slip.to_fill_in.size()) + 2 * least_type);
  double y = top + 2 * least_type;
  const auto x_of = [&](std::size_t i) { return HalfPages::margin + shares[i] * pages.width; };
  for (std::size_t i = 0; i < heads.size(); ++i) draw_text(cr, {x_of(i) + 3, top + 4}, heads[i], {.bold = true});
  for (std::size_t row = 0; row <= slip.to_fill_in.size(); ++row, y += row_height) {
    stroke_line(cr, {HalfPages::margin, y}, {HalfPages::margin + pages.width, y}, fill_in_rule);
    if (row < slip.to_fill_in.size()) draw_text(cr, {HalfPages::margin + 3, y + 6}, slip.to_fill_in[row]);
  }
  for (std::size_t i = 1; i < heads.size(); ++i)
    stroke_line(cr, {x_of(i), top + 2}, {x_of(i), y - row_height}, fill_in_rule);
}

void draw_slip(cairo_t* cr, const CouponSlip& slip, Extent page, const std::string& version) {
  HalfPages pages(cr, {"Coupon", slip.title, version, "by, date, roll of cloth, iron"}, page);
  if (!slip.stages.empty()) {
    draw_results(pages, slip);
    pages.gap();
    pages.warnings(slip.warnings);
    pages.notes(slip.notes);
    return;
  }
  const double height = height_of_drawing(slip);
  draw_square(cr, slip, {HalfPages::margin, pages.take(height), pages.width, height});
  pages.warnings(slip.warnings);
  pages.steps(slip.steps);
  draw_fill_in(cr, pages, slip);
  pages.gap(HalfPages::usual_gap / 2);
  pages.notes(slip.notes);
}

}  // namespace

void write_coupon_slip(const CouponSlip& slip, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = half_of(paper);
  write_pdf(path, page, "Coupon: " + slip.title, [&](cairo_t* cr) {
    draw_slip(cr, slip, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
