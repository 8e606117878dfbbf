#include "viz/sheet/log_slip.hpp"

#include "viz/sheet/half_page.hpp"

namespace evenpull {
namespace {

using namespace viz;

constexpr double log_headline_type = 26;

void draw_slip(cairo_t* cr, const LogSlip& slip, Extent page, const std::string& version) {
  HalfPages pages(cr, {"Job log", slip.title, version, "by, date"}, page);
  const TextStyle headline{.size = log_headline_type, .bold = true, .width = pages.width};
  const double height = measure_text(cr, slip.headline, headline).height;
  draw_text(cr, {HalfPages::margin, pages.take(height)}, slip.headline, headline);
  if (!slip.sentences.empty()) pages.warnings({slip.sentences.front()});
  pages.notes({slip.sentences.begin() + (slip.sentences.empty() ? 0 : 1), slip.sentences.end()});
  pages.gap();
  if (!slip.passes.empty()) {
    std::vector<std::vector<std::string>> rows;
    for (const PassRow& p : slip.passes) rows.push_back({p.pass, p.worked});
    pages.table({{"stage and pass", 0.55}, {"zones worked", 0.45, true}}, rows);
    pages.gap();
  }
  if (!slip.readings.empty()) {
    std::vector<std::vector<std::string>> rows;
    for (const ReadingRow& r : slip.readings) rows.push_back({r.where, r.read, r.expected, r.says});
    pages.table({{"read", 0.27}, {"was", 0.25}, {"expected", 0.21}, {"says", 0.27, true}}, rows);
    pages.gap();
  }
  if (!slip.entries.empty()) {
    pages.heading("Last entries");
    pages.notes(slip.entries);
  }
}

}  // namespace

void write_log_slip(const LogSlip& slip, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = half_of(paper);
  write_pdf(path, page, "Job log: " + slip.title, [&](cairo_t* cr) {
    draw_slip(cr, slip, page, version);
    end_page(cr);
  });
}

}  // namespace evenpull
