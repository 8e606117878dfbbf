// A sheet of paper with its head line and foot line; every page is begun here so that none lacks the warning.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "viz/kit/text.hpp"
#include "viz/sheet/sheet.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// On every page, in these words.
extern const char* const airworthy_sentence;

/// Lying on its side: a control surface is long.
Extent paper_size(Paper paper);

class Sheet {
 public:
  Sheet(cairo_t* context, const Plan& the_plan, Extent page, std::string version, int pages)
      : cr(context), plan(the_plan), page_(page), version_(std::move(version)), pages_(pages) {}

  /// Ends the page before (if any), draws head and foot, and gives the room between them.
  Box begin_page(const std::string& title);
  void finish();
  int pages_begun() const { return number_; }

  cairo_t* const cr;
  const Plan& plan;

 private:
  void draw_head(const std::string& title, double y);
  void draw_foot(double y);

  Extent page_;
  std::string version_;
  int pages_ = 0;
  int number_ = 0;
};

/// "QUICK", "REPLAYED", "INVENTED": what a reader must not overlook about where the numbers come from.
std::vector<std::string> plan_marks(const Plan& plan);
/// One line of a picture's head: what goes before, the title, cut short if it must be, and all marks.
std::string title_and_marks(cairo_t* cr, const Plan& plan, const std::string& before, double type, double room);

}  // namespace evenpull::viz
