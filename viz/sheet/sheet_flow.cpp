#include "viz/sheet/sheet_flow.hpp"

#include <algorithm>

namespace evenpull::viz {

namespace {

constexpr double heading_type = 14;
constexpr double gutter = 18;   ///< between two columns
constexpr double cell_gap = 8;  ///< between two cells
constexpr double item_gap = 3;  ///< between two sentences of a list
constexpr double indent = 12;   ///< of a sentence behind its dash
constexpr double block_gap = 12;

/// One line of a two-column list: a heading, a sentence, or a part of one that is longer than a column.
struct Piece {
  std::string text;
  bool heading = false;
  bool goes_on = false;  ///< the part before stands above, so there is no dash
  double height = 0;
};

void draw_piece(cairo_t* cr, Point at, const Piece& piece, double width) {
  if (piece.heading) {
    draw_text(cr, at, piece.text, {.size = heading_type, .bold = true, .width = width});
    return;
  }
  if (!piece.goes_on) draw_text(cr, at, "–");
  draw_text(cr, {at.x + indent, at.y}, piece.text, {.width = width - indent});
}

double height_of(cairo_t* cr, const Piece& piece, double width) {
  if (piece.heading)
    return measure_text(cr, piece.text, {.size = heading_type, .bold = true, .width = width}).height + 2 * item_gap;
  return measure_text(cr, piece.text, {.width = width - indent}).height + item_gap;
}

/// How many pieces from `first` fit in a column; a heading does not stay alone at the foot.
std::size_t fill(const std::vector<Piece>& pieces, std::size_t first, double height) {
  double used = 0;
  std::size_t i = first;
  for (; i < pieces.size() && used + pieces[i].height <= height; ++i) used += pieces[i].height;
  if (i < pieces.size() && i > first && pieces[i - 1].heading) --i;
  return i;
}

/// No piece of a sentence is higher than `most`.
std::vector<Piece> pieces_of(cairo_t* cr, const std::vector<TitledList>& lists, double width, double most = 1e6) {
  std::vector<Piece> pieces;
  for (const auto& list : lists) {
    if (list.items.empty()) continue;
    if (!list.title.empty()) pieces.push_back({list.title, true});
    for (const auto& item : list.items) {
      bool goes_on = false;
      for (auto& part : split_by_height(cr, item, {.width = width - indent}, most - item_gap)) {
        pieces.push_back({std::move(part), false, goes_on});
        goes_on = true;
      }
    }
  }
  for (auto& p : pieces) p.height = height_of(cr, p, width);
  return pieces;
}

/// Least column height that takes all pieces from `first` in two columns, up to `most`.
double even_height(const std::vector<Piece>& pieces, std::size_t first, double most) {
  double total = 0;
  for (std::size_t i = first; i < pieces.size(); ++i) total += pieces[i].height;
  for (double h = total / 2; h < most; h += 4)
    if (fill(pieces, fill(pieces, first, h), h) == pieces.size()) return h;
  return most;
}

double draw_column(cairo_t* cr, Point at, const std::vector<Piece>& pieces, std::size_t from, std::size_t to,
                   double width) {
  double y = at.y;
  for (std::size_t i = from; i < to; ++i) {
    draw_piece(cr, {at.x, y}, pieces[i], width);
    y += pieces[i].height;
  }
  return y - at.y;
}

}  // namespace

double measure_items(cairo_t* cr, const std::vector<std::string>& items, double width) {
  double h = 0;
  for (const auto& p : pieces_of(cr, {{"", items}}, width)) h += p.height;
  return h;
}

double draw_items(cairo_t* cr, Point at, const std::vector<std::string>& items, double width) {
  const auto pieces = pieces_of(cr, {{"", items}}, width);
  return draw_column(cr, at, pieces, 0, pieces.size(), width);
}

double draw_items_in_two(cairo_t* cr, Point at, const std::vector<std::string>& items, double width,
                         bool measure_only) {
  const double column = (width - gutter) / 2;
  const auto pieces = pieces_of(cr, {{"", items}}, column);
  const double h = even_height(pieces, 0, 1e6);
  const std::size_t half = fill(pieces, 0, h);
  if (!measure_only) {
    draw_column(cr, at, pieces, 0, half, column);
    draw_column(cr, {at.x + column + gutter, at.y}, pieces, half, pieces.size(), column);
  }
  return h;
}

void Flow::table(const std::string& title, const std::vector<TableColumn>& columns, const std::vector<TableRow>& rows) {
  if (rows.empty()) return;
  double shares = 0;
  for (const auto& c : columns) shares += c.share;
  const auto width = [&](std::size_t i) { return columns[i].share / shares * room_.width - cell_gap; };
  const auto style = [&](std::size_t i, bool bold) {
    return TextStyle{.bold = bold, .align = columns[i].align, .width = width(i)};
  };
  const auto draw_row = [&](const std::vector<std::string>& cells, bool bold, bool measure_only) {
    double x = room_.x, h = 0;
    for (std::size_t i = 0; i < columns.size() && i < cells.size(); ++i) {
      h = std::max(h, (measure_only ? measure_text(sheet_.cr, cells[i], style(i, bold))
                                    : draw_text(sheet_.cr, {x, y_}, cells[i], style(i, bold)))
                          .height);
      x += width(i) + cell_gap;
    }
    return h;
  };
  std::vector<std::string> heads;
  for (const auto& c : columns) heads.push_back(c.head);
  const TextStyle heading{.size = heading_type, .bold = true};
  const auto begin = [&] {
    y_ += draw_text(sheet_.cr, {room_.x, y_}, title, heading).height + 3;
    y_ += draw_row(heads, true, false) + 2;
    stroke_line(sheet_.cr, {room_.x, y_}, {room_.right(), y_}, 1);
    y_ += 2;
  };
  const double head_room = 2 * heading_type + draw_row(heads, true, true) + 2 * measure_text(sheet_.cr, "T").height;
  // Like a sentence of a list, a row higher than half a page goes on in rows of its own.
  const auto parts_of = [&](const TableRow& row) {
    std::vector<TableRow> parts;
    for (std::size_t i = 0; i < columns.size() && i < row.cells.size(); ++i) {
      const auto pieces = split_by_height(sheet_.cr, row.cells[i], style(i, row.bold), 0.5 * room_.height);
      for (std::size_t k = 0; k < pieces.size(); ++k) {
        if (k == parts.size())
          parts.push_back({std::vector<std::string>(columns.size()), row.bold, row.rule_above && k == 0});
        parts[k].cells[i] = pieces[k];
      }
    }
    return parts;
  };
  if (left() < head_room) new_page();
  begin();
  for (const auto& row : rows)
    for (const auto& part : parts_of(row)) {
      const double h = draw_row(part.cells, part.bold, true) + item_gap;
      if (left() < h) {
        new_page();
        begin();
      }
      if (part.rule_above) stroke_line(sheet_.cr, {room_.x, y_ - 0.5}, {room_.right(), y_ - 0.5}, 0.5);
      draw_row(part.cells, part.bold, false);
      y_ += h;
    }
  y_ += block_gap;
}

void Flow::lists(const std::vector<TitledList>& lists) {
  const double column = (room_.width - gutter) / 2;
  // A sentence higher than half a page is cut into parts, which fit on any page, under a heading too.
  const auto pieces = pieces_of(sheet_.cr, lists, column, 0.5 * room_.height);
  // Too little left for a few lines: begin afresh.
  if (left() < 6 * heading_type) new_page();
  for (std::size_t at = 0; at < pieces.size();) {
    const double h = even_height(pieces, at, left());
    const std::size_t half = fill(pieces, at, h), end = fill(pieces, half, h);
    if (end == at) {  // higher than what is left here; a fresh page takes any piece
      new_page();
      continue;
    }
    draw_column(sheet_.cr, {room_.x, y_}, pieces, at, half, column);
    draw_column(sheet_.cr, {room_.x + column + gutter, y_}, pieces, half, end, column);
    at = end;
    y_ += h;
    if (at < pieces.size()) new_page();
  }
  y_ += block_gap;
}

void Flow::notebook(const std::string& title) {
  constexpr double line = 26, least = 4 * line;
  if (left() < least) return;
  y_ += draw_text(sheet_.cr, {room_.x, y_}, title, {.size = heading_type, .bold = true}).height;
  for (y_ += line; y_ <= room_.bottom(); y_ += line)
    stroke_line(sheet_.cr, {room_.x, y_}, {room_.right(), y_}, 0.6, grey);
}

}  // namespace evenpull::viz
