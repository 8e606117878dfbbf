// What was asked of `coupon`, as typed.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct CouponRequest {
  std::string inside, disc, boards;  ///< empty: as usual
  std::string sag_reading;           ///< what a sag may be read off by; empty: as with a depth gauge
  std::vector<std::string> readings, marks;
  std::string into;  ///< the case to put the curve into; empty: it is printed
};

}  // namespace evenpull
