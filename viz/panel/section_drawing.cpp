#include "viz/panel/section_drawing.hpp"

#include "solver/statement/section_shapes.hpp"
#include "viz/kit/dimension.hpp"
#include "viz/words/print.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

using Shape = SectionShape::Kind;

// All in pixels, but where a length says metres.
struct SectionCell {
  static constexpr int columns = 4;
  static constexpr double gap = 32, head = 40, type = 18;
  static constexpr double room_high = 150, room_wide = 250;  // of the drawing itself
  static constexpr double below = 46;                        // the scale and what stands on it
  static constexpr double thinnest_line = 1.6;
  static constexpr double largest_scale = 12000;  // pixels a metre: a tube of 1/4 in is 76 pixels wide
  static constexpr std::size_t most = 16;         // sections drawn: more are counted
};

constexpr Colour wood{0.80, 0.80, 0.80};

/// Part of a section: a filled outline, or the middle line of a sheet.
struct Piece {
  std::vector<SectionPoint> line;  // m
  double sheet = 0;                // m; 0: a filled outline
  bool closed = false, dashed = false;
};

Piece box_piece(double width, double low, double high, bool dashed = false) {
  return {{{-width / 2, low}, {width / 2, low}, {width / 2, high}, {-width / 2, high}}, 0, true, dashed};
}

std::vector<Piece> walls_as_pieces(const WallSection& w) {
  std::vector<Piece> pieces;
  Piece line;
  for (const SectionWall& wall : w.walls) {
    const SectionPoint &a = w.nodes[static_cast<std::size_t>(wall.from)],
                       &b = w.nodes[static_cast<std::size_t>(wall.to)];
    if (line.line.empty()) line = {{a}, wall.thickness, false, false};
    line.line.push_back(b);
  }
  pieces.push_back(line);
  return pieces;
}

// A hole in the web of a rib: the web is cut and dashed there.
std::vector<Piece> with_hole(const SectionShape& shape, double height, std::vector<Piece> pieces) {
  const double hole = hole_at(shape, height);
  std::vector<Piece> out;
  for (const Piece& p : pieces) {
    Piece above{{}, p.sheet, false, false}, below = above;
    for (const SectionPoint& at : p.line) (at.z > 0 ? above : below).line.push_back(at);
    above.line.push_back({0, hole / 2});
    below.line.insert(below.line.begin(), {0, -hole / 2});
    out.push_back(above);
    out.push_back({{{0, hole / 2}, {0, -hole / 2}}, p.sheet, false, true});
    out.push_back(below);
  }
  return out;
}

std::vector<Piece> pieces_of(const ShownSection& s) {
  const SectionShape& shape = s.shape;
  const double height = shape.height > 0 ? shape.height : s.depth;
  switch (shape.kind) {
    case Shape::bar: return {box_piece(shape.width, -height / 2, height / 2)};
    case Shape::triangle: return {{{{0, height / 2}, {shape.width, 0}, {0, -height / 2}}, 0, true, false}};
    case Shape::sheet_rib:
      if (shape.hole > 0) return with_hole(shape, height, walls_as_pieces(walls_of(shape, height)));
      return walls_as_pieces(walls_of(shape, height));
    case Shape::folded_edge:
    case Shape::channel:
    case Shape::angle:
    case Shape::hat: return walls_as_pieces(walls_of(shape, height));
    case Shape::i_section:
    case Shape::capstrip_rib:
    case Shape::truss_rib: {
      const double clear = between_caps(shape, height);
      if (clear <= 0) return {box_piece(shape.width, -height / 2, height / 2)};
      return {box_piece(shape.web, -clear / 2, clear / 2, shape.kind == Shape::truss_rib),
              box_piece(shape.width, clear / 2, height / 2), box_piece(shape.width, -height / 2, -clear / 2)};
    }
    case Shape::closed_nose: {
      const std::size_t half = s.outline.size() / 2;
      std::vector<SectionPoint> skin(s.outline.begin() + static_cast<std::ptrdiff_t>(half), s.outline.end());
      skin.insert(skin.end(), s.outline.begin(), s.outline.begin() + static_cast<std::ptrdiff_t>(half));
      return {{skin, shape.wall, false, false},
              {{s.outline[half - 1], s.outline[half]}, shape.web > 0 ? shape.web : shape.wall, false, false}};
    }
    case Shape::tube:
    case Shape::properties: break;
  }
  return {};
}

struct Bounds {
  double left = 1e9, right = -1e9, low = 1e9, high = -1e9;
  double width() const { return right - left; }
  double height() const { return high - low; }
  void take(const SectionPoint& p, double round) {
    left = std::min(left, p.x - round), right = std::max(right, p.x + round);
    low = std::min(low, p.z - round), high = std::max(high, p.z + round);
  }
};

Bounds bounds_of(const ShownSection& s, const std::vector<Piece>& pieces) {
  Bounds b;
  if (s.shape.kind == Shape::tube) b.take({}, s.shape.outside_diameter / 2);
  for (const Piece& piece : pieces)
    for (const SectionPoint& p : piece.line) b.take(p, piece.sheet / 2);
  return b;
}

void draw_ring(cairo_t* cr, Point at, double outer, double inner) {
  cairo_new_sub_path(cr);
  cairo_arc(cr, at.x, at.y, outer, 0, 2 * M_PI);
  cairo_new_sub_path(cr);
  cairo_arc_negative(cr, at.x, at.y, std::max(inner, 0.0), 2 * M_PI, 0);
  set_ink(cr, black);
  cairo_fill(cr);
}

void draw_piece(cairo_t* cr, const Piece& piece, const Point& origin, double scale) {
  for (std::size_t i = 0; i < piece.line.size(); ++i) {
    const Point p{origin.x + piece.line[i].x * scale, origin.y - piece.line[i].z * scale};
    i == 0 ? cairo_move_to(cr, p.x, p.y) : cairo_line_to(cr, p.x, p.y);
  }
  if (piece.closed) cairo_close_path(cr);
  const double dash[] = {6, 5};
  if (piece.sheet == 0 && !piece.dashed) {
    set_ink(cr, wood);
    cairo_fill_preserve(cr);
  }
  set_ink(cr, piece.dashed ? grey : black);
  if (piece.dashed) cairo_set_dash(cr, dash, 2, 0);
  cairo_set_line_width(cr, std::max(SectionCell::thinnest_line, piece.dashed ? 0 : piece.sheet * scale));
  cairo_set_line_join(cr, CAIRO_LINE_JOIN_MITER);
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_BUTT);
  cairo_stroke(cr);
  cairo_set_dash(cr, nullptr, 0, 0);
}

/// A round length [m] that is at most a third of the room.
double scale_length(double scale) {
  double best = 1e-3;
  for (const double mm : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0})
    if (mm * 1e-3 * scale <= SectionCell::room_wide / 3) best = mm * 1e-3;
  return best;
}

void draw_to_scale(cairo_t* cr, const ShownSection& s, Point top_left) {
  const auto pieces = pieces_of(s);
  const Bounds b = bounds_of(s, pieces);
  if (b.width() <= 0) {
    draw_text(cr, {top_left.x, top_left.y + SectionCell::room_high / 2}, "stated by numbers: no drawing",
              {.size = SectionCell::type, .colour = grey});
    return;
  }
  const double scale =
      std::min({SectionCell::room_wide / b.width(), SectionCell::room_high / b.height(), SectionCell::largest_scale});
  const Point origin{top_left.x - b.left * scale, top_left.y + SectionCell::room_high + b.low * scale};
  if (s.shape.kind == Shape::tube)
    draw_ring(cr, origin, 0.5 * s.shape.outside_diameter * scale,
              (0.5 * s.shape.outside_diameter - s.shape.wall) * scale);
  for (const Piece& piece : pieces) draw_piece(cr, piece, origin, scale);
  const double bar = scale_length(scale), y = top_left.y + SectionCell::room_high + 18;
  const Point from{top_left.x, y}, to{top_left.x + bar * scale, y};
  stroke_line(cr, from, to, 2);
  for (const Point& end : {from, to}) stroke_line(cr, {end.x, y - 6}, {end.x, y + 6}, 2);
  draw_text(cr, {to.x + 10, y - 12}, print_millimetres(bar), {.size = SectionCell::type});
}

double cell_width(double width) {
  return (width - (SectionCell::columns - 1) * SectionCell::gap) / SectionCell::columns;
}

std::size_t count_shown(const std::vector<ShownSection>& sections) {
  return std::min(sections.size(), SectionCell::most);
}

/// Names and sizes under one drawing; gives the height taken.
double words_below(cairo_t* cr, const Case& c, const ShownSection& s, Point at, double width, bool measure_only) {
  const TextStyle name{.size = SectionCell::type, .bold = true, .width = width},
      sizes{.size = SectionCell::type, .width = width};
  constexpr double most_high = 6 * 1.25 * SectionCell::type;
  const auto lay = [&](const std::string& text, const TextStyle& style, double y) {
    auto parts = split_by_height(cr, text, style, most_high);
    if (parts.size() > 1) parts.front() += "…";
    return measure_only ? measure_text(cr, parts.front(), style).height
                        : draw_text(cr, {at.x, y}, parts.front(), style).height;
  };
  double y = at.y;
  y += lay(s.carriers, name, y);
  y += lay(shown_section_text(s, c), sizes, y);
  return y - at.y;
}

}  // namespace

double sections_height(cairo_t* cr, const Case& c, const std::vector<ShownSection>& sections, double width) {
  double height = SectionCell::head;
  const std::size_t count = count_shown(sections);
  for (std::size_t i = 0; i < count; i += SectionCell::columns) {
    double words = 0;
    for (std::size_t k = i; k < std::min<std::size_t>(count, i + SectionCell::columns); ++k)
      words = std::max(words, words_below(cr, c, sections[k], {}, cell_width(width), true));
    height += SectionCell::room_high + SectionCell::below + words + SectionCell::gap;
  }
  return height;
}

void draw_sections(cairo_t* cr, const Case& c, const std::vector<ShownSection>& sections, Point top_left,
                   double width) {
  const std::size_t count = count_shown(sections);
  std::string title = "Sections, each to its own scale, seen along the member";
  if (count < sections.size())
    title += fmt::format("; {} more are not drawn, survey.json lists all {}", sections.size() - count, sections.size());
  draw_text(cr, top_left, title, {.size = 20, .bold = true});
  double y = top_left.y + SectionCell::head;
  for (std::size_t i = 0; i < count; i += SectionCell::columns) {
    double words = 0;
    for (std::size_t k = i; k < std::min<std::size_t>(count, i + SectionCell::columns); ++k) {
      const double x = top_left.x + static_cast<double>(k - i) * (cell_width(width) + SectionCell::gap);
      draw_to_scale(cr, sections[k], {x, y});
      words = std::max(words, words_below(cr, c, sections[k], {x, y + SectionCell::room_high + SectionCell::below},
                                          cell_width(width), false));
    }
    y += SectionCell::room_high + SectionCell::below + words + SectionCell::gap;
  }
}

}  // namespace evenpull::viz
