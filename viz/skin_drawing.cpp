#include "viz/skin_drawing.hpp"

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evenpull::viz {

namespace {

constexpr double line_height = 1.2;       ///< of the type size, DejaVu Sans through Pango
constexpr double share_of_room = 0.86;    ///< of a zone's width that words may fill
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

void draw_edge_words(cairo_t* cr, const SkinView& view, double type_size) {
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
      draw_centred(cr, {area.x + area.width / 2, area.y - 0.75 * type_size}, side_name(side, area.width, cr, bold), bold);
      draw_centred(cr, {area.x + area.width / 2, area.bottom() + 0.75 * type_size}, "root", plain);
    }
  }
  const Box top = view.area(Side::top), bottom = view.area(Side::bottom);
  if (view.way() == SkinView::Way::stacked)
    draw_centred(cr, {top.x + top.width / 2, (top.bottom() + bottom.y) / 2}, "trailing edge", plain);
  else
    draw_centred(cr, {(top.right() + bottom.x) / 2, top.y + top.height / 2}, "trailing edge", plain,
                 -std::numbers::pi / 2);
}

/// Hides what is under words so that they can be read.
void draw_plate(cairo_t* cr, Point centre, Extent words) {
  const double w = words.width + 4, h = 0.86 * words.height;
  fill_box(cr, {centre.x - w / 2, centre.y - h / 2, w, h}, white);
}

}  // namespace

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

void draw_zone_lines(cairo_t* cr, const Panel& panel, const SkinView& view, double line_width, const Colour& ink) {
  for (const auto& zone : panel.zones) trace_nodes(cr, panel, view, zone_outline(panel, zone));
  set_ink(cr, ink);
  cairo_set_line_width(cr, line_width);
  cairo_stroke(cr);
}

void draw_skin_frame(cairo_t* cr, const Panel& panel, const SkinView& view, double type_size) {
  for (Side side : {Side::top, Side::bottom}) trace_nodes(cr, panel, view, skin_outline(panel, side));
  set_ink(cr, black);
  cairo_set_line_width(cr, 0.12 * type_size);
  cairo_stroke(cr);
  for (Side side : {Side::top, Side::bottom}) draw_datum(cr, panel, view, side, type_size);
  draw_edge_words(cr, view, type_size);
}

void draw_zone_words(cairo_t* cr, const Panel& panel, const SkinView& view, double least, double most,
                     const std::function<ZoneWords(const Zone&)>& words) {
  struct Placed {
    ZoneWords words;
    Point centre;
    Extent room;
  };
  std::vector<Placed> all;
  for (const auto& zone : panel.zones)
    if (!zone.quads.empty()) all.push_back({words(zone), view.centre(panel, zone), room_in_zone(panel, zone, view)});

  const TextStyle small{.size = least};
  bool keep_small = true;
  bool beside = false;  // large and small words on one line where zones are too low for two
  for (const auto& p : all)
    if (!p.words.large.empty()) beside = beside || p.room.height < 2 * line_height * least;
  // Where not even the smallest type leaves room for both, the large word alone stays.
  for (const auto& p : all) {
    if (p.words.large.empty() || p.words.small.empty()) continue;
    double need = measure_text(cr, p.words.small, small).width;
    if (beside) need += measure_text(cr, p.words.large, {.size = least, .bold = true}).width + 0.4 * least;
    keep_small = keep_small && need <= 0.97 * p.room.width;
  }
  if (!keep_small)
    for (auto& p : all)
      if (!p.words.large.empty()) p.words.small.clear();
  double size = most;
  for (const auto& p : all) {
    if (p.words.large.empty()) continue;
    Extent room{p.room.width * share_of_room, p.room.height};
    const double small_width = p.words.small.empty() ? 0 : measure_text(cr, p.words.small, small).width;
    if (beside)
      room.width -= small_width + 0.4 * least;
    else if (!p.words.small.empty())
      room.height -= 0.95 * line_height * least;
    size = std::min(size, fitting_size(cr, p.words.large, {.bold = true}, room, least, most));
  }
  for (const auto& p : all) {
    const TextStyle large{.size = size, .bold = true, .colour = p.words.ink};
    const TextStyle label{.size = least, .colour = p.words.ink};
    if (p.words.large.empty() || p.words.small.empty()) {
      const bool none = p.words.large.empty();
      const std::string& words = none ? p.words.small : p.words.large;
      if (p.words.plate) draw_plate(cr, p.centre, measure_text(cr, words, none ? label : large));
      draw_centred(cr, p.centre, words, none ? label : large);
    } else if (beside) {
      const double w = measure_text(cr, p.words.large, large).width, v = measure_text(cr, p.words.small, label).width;
      const double left = p.centre.x - (w + v + 0.4 * least) / 2;
      if (p.words.plate) draw_plate(cr, p.centre, {w + v + 0.4 * least, line_height * size});
      draw_centred(cr, {left + w / 2, p.centre.y}, p.words.large, large);
      draw_centred(cr, {left + w + 0.4 * least + v / 2, p.centre.y}, p.words.small, label);
    } else {
      const double whole = line_height * (size + 0.9 * least), upper = p.centre.y - whole / 2;
      if (p.words.plate)
        draw_plate(cr, p.centre, {std::max(measure_text(cr, p.words.large, large).width,
                                           measure_text(cr, p.words.small, label).width), whole});
      draw_centred(cr, {p.centre.x, upper + line_height * size / 2}, p.words.large, large);
      draw_centred(cr, {p.centre.x, upper + whole - line_height * least / 2}, p.words.small, label);
    }
  }
}

}  // namespace evenpull::viz
