// From the stages of a coupon to a whole curve of the cloth and to how far off it may still be.
#pragma once

#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull {

struct CouponStage {
  double temperature = 0;            ///< true, of the sole [K]
  std::optional<double> pull;        ///< sqrt(warp fill), N/m
  double sigma = 0;                  ///< of that pull, in the logarithm
  std::optional<Yarns> free_shrink;  ///< shares of length, as in the curve of a case
};

struct CouponRow {
  ShrinkPoint point;
  /// Where a number was not measured: the stage [K] whose ratio it was scaled by, and the ratio; 0: as it was.
  double pull_like = 0, pull_ratio = 1;
  double shrink_like = 0;
  bool pull_measured = false, shrink_measured = false;
};

/// What is left, one sigma in the logarithm: as the keys of [spread] say it, and at stages that were not measured with
/// `common_carried` (ShrinkPoint::pull_common) in place of `common`.
struct CouponSpread {
  double common = 0, of_stage = 0, of_yarn = 0;
  double common_carried = 0;
  bool all_measured = false;  ///< every stage of the curve
  double sum() const;
  double sum_carried() const;
};

struct CouponCurve {
  std::vector<CouponRow> rows;
  std::optional<CouponSpread> spread;  ///< none where no pull was measured
};

/// What a stage has of its own beside other stages of the same cloth, and warp and fill each (docs/data.md).
inline constexpr double pull_of_stage_alone = 0.10, pull_of_yarn_alone = 0.08;

/// Rows and stages nearer than this are one [K]: no thermometer on a sole tells them apart. Judgement.
inline constexpr double one_stage_within = 1;

/// `base`: the curve so far, onset first; stages rising, above the onset. Rows of stages measured take what was
/// measured; the ratio of warp to fill stays as it was. All others are scaled as the nearest measured stage is, with a
/// wider spread of their own, and their free shrink is kept between that of measured neighbours.
CouponCurve curve_of_coupon(const std::vector<ShrinkPoint>& base, const std::vector<CouponStage>& stages,
                            double of_yarn = pull_of_yarn_alone);

}  // namespace evenpull
