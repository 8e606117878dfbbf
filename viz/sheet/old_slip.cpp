#include "viz/sheet/old_slip.hpp"

#include "viz/sheet/half_page.hpp"

namespace evenpull {
namespace {

using namespace viz;

constexpr double old_headline_type = 20;

void draw_old_slip(cairo_t* cr, const OldSlip& slip, Extent page, const std::string& version) {
  HalfPages pages(cr, {slip.name, slip.title, version, "read by, date"}, page);
  const TextStyle headline{.size = old_headline_type, .bold = true, .width = pages.width};
  draw_text(cr, {HalfPages::margin, pages.take(measure_text(cr, slip.headline, headline).height)}, slip.headline,
            headline);
  pages.gap();
  pages.warnings(slip.warnings);
  if (!slip.rows.empty()) {
    std::vector<std::vector<std::string>> rows;
    for (const MoreRow& r : slip.rows) rows.push_back({r.stage, r.likely, r.range});
    pages.table({{"ironed at", 0.2, true}, {"pulls then, likely", 0.38}, {"95 of 100 between", 0.42}}, rows);
    pages.gap();
  }
  pages.steps(slip.steps);
  pages.notes(slip.notes);
}

}  // namespace

void write_old_slip(const OldSlip& slip, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = half_of(paper);
  write_pdf(path, page, slip.name + ": " + slip.title, [&](cairo_t* cr) {
    draw_old_slip(cr, slip, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
