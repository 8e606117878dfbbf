#include "viz/sheet/work_slip_sheet.hpp"

#include "viz/sheet/half_page.hpp"

#include <algorithm>

namespace evenpull {
namespace {

using namespace viz;

constexpr double slip_headline_type = 18, check_type = 15, tick_box = 15, beside_box = 9;
constexpr double clock_room = 92, length_room = 104, between_checks = 9, line_to_write_on = 30;
constexpr double heading_with_first = 60;

Extent page_of(Paper paper, SlipSize size) { return size == SlipSize::half_sheet ? half_of(paper) : whole_of(paper); }

void draw_check(cairo_t* cr, HalfPages& pages, const SlipCheck& c, bool with_clock) {
  const double text_from = tick_box + beside_box + (with_clock ? clock_room : 0);
  const TextStyle what{.size = check_type, .width = pages.width - text_from - (with_clock ? length_room : 0)};
  const TextStyle clock{.size = check_type, .bold = true, .width = clock_room - beside_box};
  const TextStyle length{.size = check_type, .align = Align::right, .width = length_room - beside_box};
  const double height = std::max({measure_text(cr, c.what, what).height, measure_text(cr, c.clock, clock).height,
                                  measure_text(cr, c.length, length).height, tick_box});
  const double y = pages.take(height + between_checks), x = HalfPages::margin;
  draw_tick_box(cr, {x, y + 2}, tick_box);
  draw_text(cr, {x + text_from, y}, c.what, what);
  if (!with_clock) return;
  draw_text(cr, {x + tick_box + beside_box, y}, c.clock, clock);
  draw_text(cr, {x + pages.width - length_room + beside_box, y}, c.length, length);
}

void draw_to_write(cairo_t* cr, HalfPages& pages, const std::string& label) {
  const double y = pages.take(line_to_write_on), base = y + line_to_write_on - 6;
  const double wide = draw_text(cr, {HalfPages::margin, base - least_type - 3}, label).width;
  stroke_line(cr, {HalfPages::margin + wide + beside_box, base}, {HalfPages::margin + pages.width, base}, 0.8);
}

// A heading stays with the first of what it heads.
void draw_part(cairo_t* cr, HalfPages& pages, const SlipPart& part) {
  if (!part.heading.empty()) {
    pages.keep(heading_with_first);
    pages.heading(part.heading);
  }
  pages.warnings(part.warnings);
  if (!part.rows.empty()) {
    std::vector<HalfPageColumn> columns;
    for (const SlipColumn& c : part.columns) columns.push_back({c.head, c.share, c.emphasised});
    pages.table(columns, part.rows);
  }
  pages.steps(part.steps);
  pages.notes(part.notes);
  const bool with_clock = std::any_of(part.checks.begin(), part.checks.end(),
                                      [](const SlipCheck& c) { return !c.clock.empty() || !c.length.empty(); });
  for (const SlipCheck& c : part.checks) draw_check(cr, pages, c, with_clock);
  for (const std::string& label : part.to_write) draw_to_write(cr, pages, label);
  pages.gap();
}

void draw_work_slip(cairo_t* cr, const WorkSlip& slip, Extent page, const std::string& version) {
  HalfPages pages(cr, {slip.name, slip.title, version, slip.to_fill_in}, page);
  const TextStyle headline{.size = slip_headline_type, .bold = true, .width = pages.width};
  const double at = pages.take(measure_text(cr, slip.headline, headline).height);
  draw_text(cr, {HalfPages::margin, at}, slip.headline, headline);
  pages.gap();
  for (const SlipPart& part : slip.parts) draw_part(cr, pages, part);
}

}  // namespace

void write_work_slip(const WorkSlip& slip, Paper paper, SlipSize size, const std::string& version,
                     const std::string& path) {
  const Extent page = page_of(paper, size);
  write_pdf(path, page, slip.name + ": " + slip.title, [&](cairo_t* cr) {
    draw_work_slip(cr, slip, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
