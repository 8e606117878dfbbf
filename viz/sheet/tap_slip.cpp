#include "viz/sheet/tap_slip.hpp"

#include "viz/panel/skin_drawing.hpp"
#include "viz/sheet/half_page.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <map>

namespace evenpull {
namespace {

using namespace viz;

constexpr double least_map = 110, most_map = 200;  // points
constexpr double cue = 4;                          // half the width of a mark, points

// A triangle up or down, or a dot: told by shape, not by colour.
void draw_cue(cairo_t* cr, Point at, Beside beside) {
  set_ink(cr, black);
  cairo_new_path(cr);
  if (beside == Beside::lower || beside == Beside::higher) {
    const double up = beside == Beside::higher ? -1 : 1;
    cairo_move_to(cr, at.x - cue, at.y - 0.7 * cue * up);
    cairo_line_to(cr, at.x + cue, at.y - 0.7 * cue * up);
    cairo_line_to(cr, at.x, at.y + cue * up);
    cairo_close_path(cr);
  } else {
    cairo_arc(cr, at.x, at.y, 0.5 * cue, 0, 2 * 3.14159265358979);
  }
  cairo_fill(cr);
}

// Middle of a bay on paper, and how much paper lies between its ribs.
struct BayOnPaper {
  Point middle;
  double across = 0;
};

BayOnPaper bay_on_paper(const Panel& p, const SkinView& view, Side side, int bay) {
  const int a = p.rib_columns[bay], b = p.rib_columns[bay + 1], row = p.last_row(bay);
  const auto at = [&](int r, int c) { return view.at(p.nodes[p.node(side, r, c)]); };
  const Point w = at(0, a), x = at(0, b), y = at(row, a), z = at(row, b);
  const double wide = view.way() == SkinView::Way::stacked ? std::abs(x.x - w.x) : std::abs(y.x - w.x);
  return {{0.25 * (w.x + x.x + y.x + z.x), 0.25 * (w.y + x.y + y.y + z.y)}, wide};
}

void draw_ribs(cairo_t* cr, const Panel& p, const SkinView& view) {
  for (const Side side : {Side::top, Side::bottom})
    for (std::size_t r = 1; r + 1 < p.rib_columns.size(); ++r) {
      const int bay = static_cast<int>(r);
      const int row = std::max(p.last_row(bay), p.last_row(bay - 1));
      stroke_line(cr, view.at(p.nodes[p.node(side, 0, p.rib_columns[r])]),
                  view.at(p.nodes[p.node(side, row, p.rib_columns[r])]), 0.5, grey);
    }
}

void draw_map(cairo_t* cr, const TapTold& told, const Panel& p, const Box& box) {
  const SkinView view = fit_skins(p, box, least_type);
  draw_ribs(cr, p, view);
  draw_skin_frame(cr, p, view, least_type);
  std::map<std::pair<int, int>, const TapLine*> places;
  for (const TapLine& l : told.lines) {
    const TapLine*& at = places[{static_cast<int>(l.side), l.bay}];
    if (!at || (!at->pull && l.pull)) at = &l;
  }
  for (const auto& [place, line] : places) {
    const BayOnPaper b = bay_on_paper(p, view, line->side, line->bay);
    const std::string number = line->pull ? fmt::format("{:.1f}", pounds_per_inch(*line->pull)) : "";
    const bool fits = !number.empty() && measure_text(cr, number, {}).width + 2 < b.across;
    const double apart = fits ? 0.5 * least_type : 0;
    draw_cue(cr, {b.middle.x, b.middle.y - apart}, line->others);
    if (fits) draw_centred(cr, {b.middle.x, b.middle.y + apart}, number, {});
  }
}

void draw_slip(cairo_t* cr, const TapTold& told, const Panel& panel, Extent page, const std::string& version) {
  HalfPages pages(cr, {"Tap", told.title, version, "tapped by, date"}, page);
  const bool expected = told.expected_from != ExpectedFrom::nothing;
  std::vector<HalfPageColumn> columns{
      {"bay", 0.28}, {"read", 0.19}, {"lb/in", 0.13, true}, {"95 of 100", expected ? 0.19 : 0.40}};
  if (expected) columns.push_back({"expected", 0.21});
  std::vector<std::vector<std::string>> rows;
  for (const TapLine& l : told.lines) {
    rows.push_back({tap_place(l), l.by_weight ? fmt::format("{:.1f} mm", l.sag * 1e3) : tap_read(l),
                    l.pull ? fmt::format("{:.1f}", pounds_per_inch(*l.pull)) : "-",
                    l.pull ? fmt::format("{:.1f} – {:.1f}", pounds_per_inch(*l.low), pounds_per_inch(*l.high)) : "-"});
    if (expected) rows.back().push_back(l.expected ? fmt::format("{:.1f}", pounds_per_inch(*l.expected)) : "-");
  }
  pages.table(columns, rows);
  pages.gap();
  pages.warnings(tap_warnings(told));
  pages.gap(0.5 * HalfPages::usual_gap);
  std::vector<std::string> notes{"Pulls in lb/in; 1 lb/in is 175 N/m."};
  for (auto& n : tap_notes(told)) notes.push_back(n);
  // A smaller map where the notes then fit under it.
  const double room = pages.left() - HalfPages::usual_gap, beside_notes = room - pages.height_of_notes(notes);
  const double height = beside_notes >= least_map ? std::min(beside_notes, most_map)
                        : room >= least_map       ? std::min(room, most_map)
                                                  : most_map;
  const Box box{HalfPages::margin, pages.take(height), pages.width, height};
  draw_map(cr, told, panel, box);
  pages.gap();
  pages.notes(notes);
}

}  // namespace

void write_tap_slip(const TapTold& told, const Panel& panel, Paper paper, const std::string& version,
                    const std::string& path) {
  const Extent page = half_of(paper);
  write_pdf(path, page, "Tap: " + told.title, [&](cairo_t* cr) {
    draw_slip(cr, told, panel, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
