#include "viz/panel/skin_drawing.hpp"

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evenpull::viz {

namespace {

constexpr double line_height = 1.2;         ///< of the type size, DejaVu Sans through Pango
constexpr double datum_width_share = 0.32;  ///< heavy bar along the leading edge, of the type size

void trace_points(cairo_t* cr, const std::vector<Point>& points) {
  for (std::size_t i = 0; i < points.size(); ++i)
    i == 0 ? cairo_move_to(cr, points[i].x, points[i].y) : cairo_line_to(cr, points[i].x, points[i].y);
}

std::vector<Point> edge_points(const Panel& panel, const SkinView& view, Side side, int row) {
  std::vector<Point> points;
  for (int c = 0; c < panel.columns; ++c) points.push_back(view.at(panel.nodes[panel.node(side, row, c)]));
  return points;
}

void draw_datum(cairo_t* cr, const Panel& panel, const SkinView& view, Side side, double type_size) {
  // The bar lies outside the cloth, so that it hides nothing of the zones next to it.
  auto points = edge_points(panel, view, side, 0);
  const double w = datum_width_share * type_size, out = (side == Side::top ? -1 : 1) * w / 2;
  for (auto& p : points) view.way() == SkinView::Way::stacked ? p.y += out : p.x += out;
  trace_points(cr, points);
  set_ink(cr, black);
  cairo_set_line_width(cr, w);
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_BUTT);
  cairo_stroke(cr);
}

/// The longer name where there is room for it.
std::string side_name(Side side, double room, cairo_t* cr, const TextStyle& style) {
  if (side == Side::top) return "TOP";
  const std::string name = "BOTTOM, rolled over";
  return measure_text(cr, name, style).width <= room ? name : "BOTTOM";
}

/// Side, datum and tip on one line along the leading edge; what finds no room is left out, the side last.
void draw_edge_line(cairo_t* cr, const Box& line, Side side, double type_size) {
  const TextStyle plain{.size = type_size}, bold{.size = type_size, .bold = true};
  const double y = line.y - line_height / 2 * type_size, space = 0.8 * type_size;
  const double tip = measure_text(cr, "tip", plain).width + space;
  const double name = draw_text(cr, {line.x, y}, side_name(side, 0.6 * line.width, cr, bold), bold).width + space;
  const double room = line.width - name - tip;
  if (room < 0) return;
  draw_text(cr, {line.right() - tip + space, y}, "tip", plain);
  for (const char* words : {"leading edge (datum)", "leading edge", "LE"}) {
    const double w = measure_text(cr, words, plain).width;
    if (w > room) continue;
    const double middle = std::clamp(line.x + line.width / 2, line.x + name + w / 2, line.right() - tip - w / 2);
    draw_centred(cr, {middle, line.y}, words, plain);
    break;
  }
}

// Of both skins at a station between two columns, in the gap.
Point in_the_gap(const Panel& panel, const SkinView& view, int first_column, int last_column) {
  const Box top = view.area(Side::top), bottom = view.area(Side::bottom);
  const auto y = [&](int column) { return panel.nodes[panel.node(Side::top, panel.rows - 1, column)].placed.y(); };
  const Point p = view.at(Side::top, 0, 0.5 * (y(first_column) + y(last_column)));
  if (view.way() == SkinView::Way::stacked) return {p.x, (top.bottom() + bottom.y) / 2};
  return {(top.right() + bottom.x) / 2, p.y};
}

// Says in each pocket that there is no cloth, where the words find room.
void draw_pocket_words(cairo_t* cr, const Panel& panel, const SkinView& view, double type_size) {
  const bool stacked = view.way() == SkinView::Way::stacked;
  const TextStyle plain{.size = type_size};
  for (std::size_t k = 0; k < panel.pockets.size(); ++k) {
    const CutOut& c = panel.cut_outs[k];
    const Point a = view.at(panel.nodes[panel.node(Side::top, c.last_row, c.first_column)]),
                b = view.at(panel.nodes[panel.node(Side::top, c.last_row, c.last_column)]);
    if (measure_text(cr, "no cloth", plain).width < (stacked ? std::abs(b.x - a.x) : std::abs(b.y - a.y)))
      draw_centred(cr, in_the_gap(panel, view, c.first_column, c.last_column), "no cloth", plain,
                   stacked ? 0 : -std::numbers::pi / 2);
  }
}

void draw_edge_words(cairo_t* cr, const Panel& panel, const SkinView& view, double type_size) {
  const TextStyle bold{.size = type_size, .bold = true};
  const TextStyle plain{.size = type_size};
  const double off = type_size * (0.75 + datum_width_share);
  for (Side side : {Side::top, Side::bottom}) {
    const Box area = view.area(side);
    if (view.way() == SkinView::Way::stacked) {
      const double y = side == Side::top ? area.y - off : area.bottom() + off;
      draw_edge_line(cr, {area.x, y, area.width, 0}, side, type_size);
      draw_centred(cr, {area.x - 0.75 * type_size, area.y + area.height / 2}, "root", plain, -std::numbers::pi / 2);
    } else {
      const double x = side == Side::top ? area.x - off : area.right() + off;
      draw_centred(cr, {x, area.y + area.height / 2}, "leading edge (datum)", plain, -std::numbers::pi / 2);
      draw_centred(cr, {area.x + area.width / 2, area.y - 0.75 * type_size}, side_name(side, area.width, cr, bold),
                   bold);
      draw_centred(cr, {area.x + area.width / 2, area.bottom() + 0.75 * type_size}, "root", plain);
    }
  }
  draw_centred(cr, edge_words_place(panel, view), "trailing edge", plain,
               view.way() == SkinView::Way::stacked ? 0 : -std::numbers::pi / 2);
  draw_pocket_words(cr, panel, view, type_size);
}

}  // namespace

Point edge_words_place(const Panel& panel, const SkinView& view) {
  if (panel.pockets.empty()) {
    const Box top = view.area(Side::top), bottom = view.area(Side::bottom);
    if (view.way() == SkinView::Way::stacked) return {top.x + top.width / 2, (top.bottom() + bottom.y) / 2};
    return {(top.right() + bottom.x) / 2, top.y + top.height / 2};
  }
  int from = 0, to = 0;
  for (int b = 0, began = 0; b < panel.bays; ++b) {
    if (panel.pocket_in(b) >= 0) began = panel.rib_columns[b + 1];
    else if (panel.rib_columns[b + 1] - began > to - from) from = began, to = panel.rib_columns[b + 1];
  }
  return in_the_gap(panel, view, from, to);
}

SkinMargins skin_margins(double type_size) { return {1.6 * type_size, 1.7 * type_size}; }

SkinView fit_skins(const Panel& panel, Box box, double type_size, bool at_top) {
  const auto margins = skin_margins(type_size);
  return SkinView(panel, box.inset(margins.label), margins.gap, at_top);
}

void trace_nodes(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<int>& nodes) {
  std::vector<Point> points;
  for (int n : nodes) points.push_back(view.at(panel.nodes[n]));
  trace_points(cr, points);
  cairo_close_path(cr);
}

void trace_outlines(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<std::vector<int>>& lines) {
  for (const std::vector<int>& line : lines) trace_nodes(cr, panel, view, line);
}

void draw_zone_lines(cairo_t* cr, const Panel& panel, const SkinView& view, double line_width, const Colour& ink) {
  for (const auto& zone : panel.zones) trace_outlines(cr, panel, view, zone_outlines(panel, zone));
  set_ink(cr, ink);
  cairo_set_line_width(cr, line_width);
  cairo_stroke(cr);
}

void draw_skin_frame(cairo_t* cr, const Panel& panel, const SkinView& view, double type_size) {
  for (Side side : {Side::top, Side::bottom}) trace_outlines(cr, panel, view, skin_outlines(panel, side));
  set_ink(cr, black);
  cairo_set_line_width(cr, 0.12 * type_size);
  cairo_stroke(cr);
  for (Side side : {Side::top, Side::bottom}) draw_datum(cr, panel, view, side, type_size);
  draw_edge_words(cr, panel, view, type_size);
}

}  // namespace evenpull::viz
