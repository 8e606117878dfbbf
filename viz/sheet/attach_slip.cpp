#include "viz/sheet/attach_slip.hpp"

#include "viz/kit/text.hpp"
#include "viz/panel/attach_marks.hpp"
#include "viz/sheet/half_page.hpp"
#include "viz/sheet/sheet_frame.hpp"

#include <cairo.h>

#include <algorithm>

namespace evenpull {
namespace {

using namespace viz;

constexpr double tallest_view = 190, view_edge = 20, view_foot = 16, mark_size = 6;
constexpr double moment_at = 0.82;  // of the rib's length aft: clear of most spars

double x_on(const std::vector<PlanPoint>& line, double y) {
  std::size_t i = 0;
  while (i + 2 < line.size() && line[i + 1].y <= y) ++i;
  const PlanPoint &a = line[i], &b = line[i + 1];
  return a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
}

// The panel from above, span across the page, leading edge up.
class RibView {
 public:
  RibView(const Case& c, double x, double y, double width) : c_(c), x_(x + view_edge), y_(y + view_edge) {
    for (const auto* line : {&c.outline.leading_edge, &c.outline.trailing_edge})
      for (const PlanPoint& p : *line)
        low_ = std::min(low_, p.x), high_ = std::max(high_, p.x), span_ = std::max(span_, p.y);
    scale_ = std::min((width - 2 * view_edge) / span_, (tallest_view - 2 * view_edge) / (high_ - low_));
  }
  double height() const { return 2 * view_edge + view_foot + scale_ * (high_ - low_); }
  Point at(double fraction, double y) const {
    const double le = x_on(c_.outline.leading_edge, y), te = x_on(c_.outline.trailing_edge, y);
    return {x_ + scale_ * y, y_ + scale_ * (le + fraction * (te - le) - low_)};
  }

  void draw(cairo_t* cr) const {
    for (const SpanMember& m : c_.span_members)
      stroke_line(cr, at(m.chord_fraction, 0), at(m.chord_fraction, c_.outline.span()), 1, grey);
    for (const auto* line : {&c_.outline.leading_edge, &c_.outline.trailing_edge})
      for (std::size_t i = 1; i < line->size(); ++i) stroke_line(cr, on(line->at(i - 1)), on(line->at(i)), 2);
    for (std::size_t r = 0; r < c_.ribs.size(); ++r) draw_rib(cr, static_cast<int>(r));
  }

 private:
  Point on(const PlanPoint& p) const { return {x_ + scale_ * p.y, y_ + scale_ * (p.x - low_)}; }

  void draw_rib(cairo_t* cr, int rib) const {
    const double station = c_.ribs[static_cast<std::size_t>(rib)].station;
    const Point front = at(c_.blanket.seam_chord_fraction, station), rear = at(1, station);
    stroke_line(cr, front, rear, 1.2, grey);
    draw_centred(cr, {rear.x, rear.y + 12}, std::to_string(rib + 1), {.bold = true});
    std::string moments;
    for (const Attachment& a : c_.attachments) {
      if (std::find(a.ribs.begin(), a.ribs.end(), rib) == a.ribs.end() || a.how == AttachHow::left) continue;
      draw_fastening(cr, front, rear, a.how, mark_size);
      moments += (moments.empty() ? "" : " ") + moment_mark(c_, a);
    }
    if (!moments.empty()) draw_moment(cr, at(moment_at, station), moments, least_type);
  }

  const Case& c_;
  double x_ = 0, y_ = 0, low_ = 1e9, high_ = -1e9, span_ = 0, scale_ = 1;
};

std::vector<HalfPageColumn> columns_for(const std::vector<std::string>& heads, const std::vector<double>& shares) {
  std::vector<HalfPageColumn> out;
  for (std::size_t i = 0; i < heads.size(); ++i) out.push_back({heads[i], shares[i]});
  return out;
}

void draw_tables(HalfPages& pages, const AttachTables& t) {
  if (t.uses.empty()) return;
  pages.heading("Use of the limits of damage and shape by stage, worst of each; 1 is the limit");
  std::vector<double> shares(t.use_heads.size(), 0.7 / std::max<std::size_t>(1, t.use_heads.size() - 1));
  shares.front() = 0.3;
  pages.table(columns_for(t.use_heads, shares), t.uses);
  pages.gap();
  if (t.readings.empty()) return;
  pages.heading("Read after " + t.stage + ", off the rests");
  pages.table(columns_for(t.reading_heads, {0.23, 0.15, 0.13, 0.09, 0.2, 0.1, 0.1}), t.readings);
  pages.gap();
}

void draw_attach_page(cairo_t* cr, const Case& c, const AttachSlip& slip, Extent page, const std::string& version) {
  HalfPages pages(cr, {"Fastening to ribs", c.title, version, "fastened by, date"}, page);
  pages.heading(slip.headline);
  pages.warnings(slip.warnings);
  const double left = HalfPages::margin;
  const double height = RibView(c, left, 0, pages.width).height();
  const RibView view(c, left, pages.take(height), pages.width);
  view.draw(cr);
  pages.notes(marks_legend(c));
  if (!slip.schedule.empty()) {
    pages.heading("As the case states");
    pages.notes(slip.schedule);
  }
  pages.gap();
  draw_tables(pages, slip.tables);
  pages.notes(slip.notes);
}

}  // namespace

void write_attach_slip(const Case& c, const AttachSlip& slip, Paper paper, const std::string& version,
                       const std::string& path) {
  const Extent across = paper_size(paper), page{across.height, across.width};
  write_pdf(path, page, "Fastening to ribs: " + c.title, [&](cairo_t* cr) {
    draw_attach_page(cr, c, slip, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
