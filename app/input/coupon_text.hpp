// The readings of a coupon as they are typed.
#pragma once

#include "shop/coupon.hpp"
#include "shop/coupon_boards.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

struct CouponWeights {
  double temperature = 0;  ///< K
  std::vector<WeightReading> weights;
};

/// A loose piece with two marks along a yarn, before and after [m].
struct CouponMarks {
  double temperature = 0;  ///< K
  std::optional<double> warp_before, warp_after, fill_before, fill_after;
};

/// All throw CaseFileError that names the option, what was typed, and what it may be.
/// "1 1/2 in x 3 1/2 in": height (upright) and width.
CouponBoards coupon_boards(const std::string& text);
/// "300 degF: 0.5 kg = 1.84 mm, 1 kg = 3.68 mm"; stages rising, each once.
std::vector<CouponWeights> coupon_readings(const std::vector<std::string>& texts);
/// "300 degF: warp 500 mm = 465 mm, fill 500 mm = 470 mm"; stages rising, each once.
std::vector<CouponMarks> coupon_marks(const std::vector<std::string>& texts);

}  // namespace evenpull
