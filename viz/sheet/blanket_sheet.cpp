#include "viz/sheet/blanket_sheet.hpp"

#include "viz/kit/dimension.hpp"
#include "viz/kit/uncrowded.hpp"
#include "viz/sheet/half_page.hpp"

#include <cairo.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

using namespace viz;

constexpr double blanket_headline_type = 20;
constexpr double highest_bolt = 200, highest_piece = 300;  // points
constexpr double below_room = 22, edge_words_room = 20, side_room = 24;
constexpr double piece_head_type = 14, letter_type = 16, heavy_line = 2, light_line = 0.6, glue_line = 1;
constexpr double letter_space = 18;  // of a corner's letter from its corner
const Colour opening_ink{0.80, 0.80, 0.80};

/// Cloth on paper, to scale.
class ClothView {
 public:
  ClothView(PlanePoint low, PlanePoint high, Box room) : low_(low), room_(room) {
    const PlanePoint size = high - low;
    scale_ = std::min(room.width / size.x(), room.height / size.y());
    left_ = room.x + (room.width - scale_ * size.x()) / 2;
    drawn_ = {left_, room.y, scale_ * size.x(), scale_ * size.y()};
  }
  Point at(const PlanePoint& p) const {
    return {left_ + scale_ * (p.x() - low_.x()), room_.y + scale_ * (p.y() - low_.y())};
  }
  const Box& drawn() const { return drawn_; }
  static double height_for(const PlanePoint& size, double width, double most) {
    return std::min(most, width * size.y() / size.x());
  }

 private:
  PlanePoint low_;
  Box room_, drawn_;
  double scale_ = 1, left_ = 0;
};

void trace(cairo_t* cr, const ClothView& view, const Polygon& p, bool closed) {
  cairo_new_path(cr);
  for (const PlanePoint& q : p) {
    const Point at = view.at(q);
    cairo_line_to(cr, at.x, at.y);
  }
  if (closed) cairo_close_path(cr);
}

void stroke_path(cairo_t* cr, double width, const Colour& ink, bool dashed = false) {
  const double dash[] = {5, 3};
  if (dashed) cairo_set_dash(cr, dash, 2, 0);
  set_ink(cr, ink);
  cairo_set_line_width(cr, width);
  cairo_stroke(cr);
  cairo_set_dash(cr, nullptr, 0, 0);
}

PlanePoint middle_of(const Polygon& p) {
  PlanePoint sum(0, 0);
  for (const PlanePoint& q : p) sum += q;
  return sum / static_cast<double>(p.size());
}

void draw_letter(cairo_t* cr, Point at, const std::string& text, double type) {
  const TextStyle style{.size = type, .bold = true};
  const Extent size = measure_text(cr, text, style);
  fill_box(cr, {at.x - size.width / 2 - 2, at.y - size.height / 2, size.width + 4, size.height}, white);
  draw_centred(cr, at, text, style);
}

// --- The bolt. ---

void draw_bolt(cairo_t* cr, HalfPages& pages, const BlanketSheet& s) {
  const double width = pages.width - side_room;
  const PlanePoint size(s.bolt_length, s.bolt_width);
  const double height = ClothView::height_for(size, width, highest_bolt);
  const double y = pages.take(height + below_room + HalfPages::usual_gap);
  const ClothView view({0, 0}, size, {HalfPages::margin, y, width, height});
  fill_box(cr, view.drawn(), pale);
  stroke_box(cr, view.drawn(), light_line, grey);
  for (const BlanketOnBolt& p : s.on_bolt) {
    trace(cr, view, p.shape, true);
    set_ink(cr, white);
    cairo_fill_preserve(cr);
    stroke_path(cr, heavy_line, black);
  }
  Uncrowded numbers;
  for (const BlanketOnBolt& p : s.on_bolt) {
    draw_letter(cr, view.at(middle_of(p.shape)), p.letter, letter_type);
    const Point centre = view.at(middle_of(p.shape));
    for (std::size_t i = 0; i < p.shape.size(); ++i) {
      const Point corner = view.at(p.shape[i]);
      const double dx = centre.x - corner.x, dy = centre.y - corner.y, off = std::hypot(dx, dy);
      if (off > 2.5 * letter_space)
        numbers.add(cr, {corner.x + letter_space * dx / off, corner.y + letter_space * dy / off}, std::to_string(i + 1),
                    {});
    }
  }
  const Box& b = view.drawn();
  draw_dimension(cr, {b.x, b.bottom() + below_room / 2}, {b.right(), b.bottom() + below_room / 2}, s.length_words,
                 least_type);
  draw_dimension(cr, {b.right() + side_room / 2, b.y}, {b.right() + side_room / 2, b.bottom()}, s.width_words,
                 least_type);
}

// --- A piece. ---

void draw_yarns(cairo_t* cr, Point at, double warp) {
  constexpr double half = 24;
  const double dx = half * std::cos(warp), dy = half * std::sin(warp);
  draw_arrow(cr, at, {at.x + dx, at.y + dy}, 1.5, 8);
  draw_arrow(cr, at, {at.x - dx, at.y - dy}, 1.5, 8);
  draw_letter(cr, {at.x, at.y + 15}, "warp", least_type);
}

TextStyle piece_head(const HalfPages& pages) { return {.size = piece_head_type, .bold = true, .width = pages.width}; }

// With its heading: the two stay together.
void draw_cloth_piece(cairo_t* cr, HalfPages& pages, const BlanketPiecePage& p) {
  PlanePoint low = p.cut.front(), high = low;
  for (const PlanePoint& q : p.cut) low = low.cwiseMin(q), high = high.cwiseMax(q);
  const double width = pages.width - 2 * side_room;
  const double height = ClothView::height_for(high - low, width, highest_piece);
  const double head = measure_text(cr, p.heading, piece_head(pages)).height + HalfPages::usual_gap;
  const double top = pages.take(head + height + below_room + 2 * edge_words_room + HalfPages::usual_gap);
  draw_text(cr, {HalfPages::margin, top}, p.heading, piece_head(pages));
  const double y = top + head;
  const ClothView view(low, high, {HalfPages::margin + side_room, y + edge_words_room, width, height});
  const Box& b = view.drawn();
  for (const auto& [number, line] : p.ribs) {
    trace(cr, view, line, false);
    stroke_path(cr, light_line, grey);
  }
  for (const Polygon& fold : p.folds) {
    trace(cr, view, fold, false);
    stroke_path(cr, glue_line, grey);
  }
  for (const BlanketOpening& o : p.openings) {
    trace(cr, view, o.line, true);
    set_ink(cr, opening_ink);
    cairo_fill_preserve(cr);
    stroke_path(cr, glue_line, black);
  }
  trace(cr, view, p.line, true);
  stroke_path(cr, glue_line, black, true);
  trace(cr, view, p.cut, true);
  stroke_path(cr, heavy_line, black);
  for (const auto& [number, line] : p.ribs) draw_letter(cr, view.at(line[line.size() / 4]), number, least_type);
  for (const BlanketOpening& o : p.openings) draw_letter(cr, view.at(middle_of(o.line)), o.letter, least_type);
  draw_yarns(cr, view.at(0.25 * low + 0.75 * high - PlanePoint(0, 0.1 * (high.y() - low.y()))), p.warp);
  draw_centred(cr, {b.x + b.width / 2, y + edge_words_room / 2}, p.upper, {.bold = true});
  draw_centred(cr, {b.x + b.width / 2, b.bottom() + edge_words_room / 2}, p.lower, {.bold = true});
  draw_centred(cr, {b.x - side_room / 2, b.y + b.height / 2}, "root", {.bold = true}, -M_PI / 2);
  const double line = b.bottom() + edge_words_room + below_room / 2;
  draw_dimension(cr, {b.x, line}, {b.right(), line}, p.length_words, least_type);
  draw_dimension(cr, {b.right() + side_room / 2, b.y}, {b.right() + side_room / 2, b.bottom()}, p.width_words,
                 least_type);
}

void add_piece(cairo_t* cr, HalfPages& pages, const BlanketPiecePage& p) {
  draw_cloth_piece(cr, pages, p);
  if (!p.of_title.empty()) pages.notes({p.of_title});
  pages.notes(p.opening_places);
  pages.notes(p.edges);
  pages.notes(p.notes);
  pages.gap();
}

void draw_blanket_sheet(cairo_t* cr, const BlanketSheet& s, Extent page, const std::string& version) {
  HalfPages pages(cr, {s.name, s.title, version, "cut by, date"}, page);
  const TextStyle headline{.size = blanket_headline_type, .bold = true, .width = pages.width};
  draw_text(cr, {HalfPages::margin, pages.take(measure_text(cr, s.headline, headline).height)}, s.headline, headline);
  pages.gap();
  pages.warnings(s.warnings);
  draw_bolt(cr, pages, s);
  pages.notes(s.bolt_notes);
  pages.gap();
  for (const BlanketPiecePage& p : s.pieces)
    pages.table({{p.heading, 0.4, true}, {"along the bolt", 0.3}, {"across, from the near edge", 0.3}}, p.corners);
  pages.gap();
  for (const BlanketPiecePage& p : s.pieces) add_piece(cr, pages, p);
  pages.notes(s.opening_steps);
  pages.gap();
  std::vector<HalfPageColumn> columns;
  constexpr double shares[] = {0.15, 0.16, 0.16, 0.17, 0.18, 0.18};
  for (std::size_t i = 0; i < s.line_heads.size(); ++i) columns.push_back({s.line_heads[i], shares[i], false});
  pages.heading("What the glued lines see");
  pages.table(columns, s.lines);
  pages.gap();
  pages.heading("Where it would let go first");
  pages.notes(s.places);
  pages.notes(s.notes);
  pages.gap();
  if (!s.tapes.empty()) {
    pages.heading("Tapes, once the cloth is tight");
    pages.table({{"over", 0.25}, {"strips", 0.1}, {"width", 0.35, true}, {"length of all", 0.3}}, s.tapes);
    pages.gap();
  }
  pages.heading("Before you cut");
  pages.notes(s.cautions);
  pages.notes(s.defaults);
}

}  // namespace

void write_blanket_sheet(const BlanketSheet& sheet, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = whole_of(paper);
  write_pdf(path, page, sheet.name + ": " + sheet.title, [&](cairo_t* cr) {
    draw_blanket_sheet(cr, sheet, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
