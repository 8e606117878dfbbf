#include "viz/sheet/sheet.hpp"

#include "viz/sheet/sheet_pages.hpp"

namespace evenpull {

namespace {

using namespace viz;

void draw_all(Sheet& sheet) {
  const Plan& plan = sheet.plan;
  draw_answer_page(sheet);
  if (plan.ceiling) {
    for (int stage = 0; stage <= opened_by_reading(plan).value_or(*plan.ceiling); ++stage) {
      const auto orders = orders_of_stage(plan, stage);
      for (const auto& order : orders) draw_work_page(sheet, stage, order, orders.size() == 1);
      if (!orders.empty()) draw_check_page(sheet, stage);
      if (!orders.empty() && window_after(plan, stage)) draw_go_on_page(sheet, stage);
    }
  }
  draw_record_pages(sheet);
  sheet.finish();
}

}  // namespace

void write_sheet(const Plan& plan, Paper paper, const std::string& version, const std::string& path) {
  const Extent page = paper_size(paper);
  // Once into nothing, to know "page 2 of 9".
  int pages = 0;
  draw_nowhere(page, [&](cairo_t* cr) {
    Sheet trial(cr, plan, page, version, 0);
    draw_all(trial);
    pages = trial.pages_begun();
  });
  write_pdf(path, page, "Ironing plan: " + plan.the_case.title, [&](cairo_t* cr) {
    Sheet sheet(cr, plan, page, version, pages);
    draw_all(sheet);
  });
}

}  // namespace evenpull
