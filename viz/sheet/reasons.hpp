// Why the answer is what it is, beside it on the first page.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "viz/kit/text.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

constexpr double reason_type = 13, reason_heading_type = 14;

struct Reason {
  std::string text;
  bool bold = false;
};
std::vector<Reason> reasons_of(const Plan& plan);

/// As many as fit in the box; what does not is put into `left`. Gives the height taken.
double draw_reasons(cairo_t* cr, const std::vector<Reason>& reasons, const Box& box, std::vector<std::string>& left);

}  // namespace evenpull::viz
