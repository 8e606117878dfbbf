// Half a page for a coupon: the square drawn to scale, what to do, and a table to fill in or what came out. Plain words
// and numbers in.
#pragma once

#include "viz/sheet/sheet.hpp"
#include "viz/words/coupon_words.hpp"

#include <string>
#include <vector>

namespace evenpull {

struct CouponSlip {
  std::string title;
  viz::CouponSizes sizes;
  viz::CouponUnits units = viz::CouponUnits::inch;
  struct Stage {
    std::string stage, pull, range, shrink;
  };
  std::vector<Stage> stages;            ///< what came out; none: a table to fill in
  std::vector<std::string> to_fill_in;  ///< stages of that table
  std::vector<std::string> steps, warnings, notes;
};

/// Half a sheet of letter or A4, and another where one is too small. Throws CannotWriteFile that names the file.
void write_coupon_slip(const CouponSlip& slip, Paper paper, const std::string& version, const std::string& path);

}  // namespace evenpull
