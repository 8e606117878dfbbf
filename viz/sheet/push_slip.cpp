#include "viz/sheet/push_slip.hpp"

#include "viz/kit/text.hpp"
#include "viz/sheet/half_page.hpp"

#include <cairo.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

using namespace viz;

constexpr double most_picture = 100, mark_reach = 8.5, support_size = 4, picture_edge = 16;
constexpr double caption_room = 9;  // beyond the edge, above: what the picture shows

/// The frame from above: span across the page, leading edge above.
class FrameView {
 public:
  FrameView(const PushSlip& slip, const Box& box) {
    for (const PushSlipMember& m : slip.members)
      for (const auto& [chord, span] : m.line) {
        low_c_ = std::min(low_c_, chord), high_c_ = std::max(high_c_, chord);
        low_s_ = std::min(low_s_, span), high_s_ = std::max(high_s_, span);
      }
    const Box room = box.inset(picture_edge);
    scale_ = std::min(room.width / std::max(1e-9, high_s_ - low_s_), room.height / std::max(1e-9, high_c_ - low_c_));
    left_ = room.x + 0.5 * (room.width - scale_ * (high_s_ - low_s_));
    top_ = room.y + 0.5 * (room.height - scale_ * (high_c_ - low_c_));
  }
  Point at(double chord, double span) const {
    return {left_ + scale_ * (span - low_s_), top_ + scale_ * (chord - low_c_)};
  }
  static double height_for(const PushSlip& slip, double width) {
    double low_c = 1e9, high_c = -1e9, low_s = 1e9, high_s = -1e9;
    for (const PushSlipMember& m : slip.members)
      for (const auto& [chord, span] : m.line) {
        low_c = std::min(low_c, chord), high_c = std::max(high_c, chord);
        low_s = std::min(low_s, span), high_s = std::max(high_s, span);
      }
    const double wanted = (width - 2 * picture_edge) * (high_c - low_c) / std::max(1e-9, high_s - low_s);
    return std::min(most_picture, wanted + 2 * picture_edge + caption_room);
  }

 private:
  double low_c_ = 1e9, high_c_ = -1e9, low_s_ = 1e9, high_s_ = -1e9;
  double scale_ = 1, left_ = 0, top_ = 0;
};

void draw_support(cairo_t* cr, Point p) {
  cairo_new_path(cr);
  cairo_move_to(cr, p.x, p.y);
  cairo_line_to(cr, p.x - support_size, p.y - 1.7 * support_size);
  cairo_line_to(cr, p.x + support_size, p.y - 1.7 * support_size);
  cairo_close_path(cr);
  set_ink(cr, grey);
  cairo_fill(cr);
}

// A filled circle where a weight hangs, an open one where something is only read.
void draw_mark(cairo_t* cr, Point p, const PushSlipMark& m) {
  cairo_new_path(cr);
  cairo_arc(cr, p.x, p.y, mark_reach, 0, 2 * M_PI);
  set_ink(cr, m.weight ? black : white);
  cairo_fill_preserve(cr);
  set_ink(cr, black);
  cairo_set_line_width(cr, 1);
  cairo_stroke(cr);
  draw_centred(cr, p, m.text, {.bold = m.weight, .colour = m.weight ? white : black});
}

void draw_frame_view(cairo_t* cr, const PushSlip& slip, const Box& box) {
  const FrameView view(slip, {box.x, box.y + caption_room, box.width, box.height - caption_room});
  for (const PushSlipMember& m : slip.members)
    for (std::size_t i = 1; i < m.line.size(); ++i)
      stroke_line(cr, view.at(m.line[i - 1].first, m.line[i - 1].second), view.at(m.line[i].first, m.line[i].second),
                  m.rib ? 1 : 2.2, m.rib ? grey : black);
  for (const auto& [chord, span] : slip.supports) draw_support(cr, view.at(chord, span));
  for (const PushSlipMark& m : slip.marks)
    if (!m.weight) draw_mark(cr, view.at(m.chord, m.span), m);
  for (const PushSlipMark& m : slip.marks)
    if (m.weight) draw_mark(cr, view.at(m.chord, m.span), m);
  draw_text(cr, {box.x, box.y}, "from above: inboard end left, leading edge up");
}

std::vector<HalfPageColumn> columns_of(const std::vector<std::string>& heads, const std::vector<double>& shares,
                                       int emphasised) {
  std::vector<HalfPageColumn> out;
  for (std::size_t i = 0; i < heads.size(); ++i)
    out.push_back({heads[i], shares[i], static_cast<int>(i) == emphasised});
  return out;
}

void draw_push_slip(cairo_t* cr, const PushSlip& slip, Extent page, const std::string& version) {
  HalfPages pages(cr, {"Bare frame", slip.title, version, "hung by, date, gauge"}, page);
  pages.heading(slip.headline);
  pages.warnings(slip.warnings);
  if (!slip.members.empty()) {
    const double height = FrameView::height_for(slip, pages.width);
    draw_frame_view(cr, slip, {HalfPages::margin, pages.take(height), pages.width, height});
    pages.gap(HalfPages::usual_gap / 2);
  }
  pages.table(columns_of(slip.heads, slip.shares, slip.emphasised), slip.rows);
  pages.gap();
  if (!slip.factors.empty()) {
    pages.table(columns_of(slip.factor_heads, {0.36, 0.3, 0.34}, -1), slip.factors);
    pages.gap();
  }
  pages.notes(slip.notes);
}

}  // namespace

void write_push_slip(const PushSlip& slip, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = half_of(paper);
  write_pdf(path, page, "Weights on the bare frame: " + slip.title, [&](cairo_t* cr) {
    draw_push_slip(cr, slip, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
