// What is said of a coupon: how to make one, what came out, what is left to doubt. Plain numbers in (SI), sentences
// out.
#pragma once

#include <string>
#include <vector>

namespace evenpull::viz {

/// Sizes of the square and the disc [m].
struct CouponSizes {
  double inside = 0, disc = 0;  ///< from board to board; across
  double board_height = 0, board_width = 0;
};

/// Which units stand first, and which weights are named.
enum class CouponUnits { inch, metric };

/// Names of the two weights: "1 lb", "2 lb".
std::vector<std::string> coupon_weights(CouponUnits units);
/// The steps of the instruction sheet.
std::vector<std::string> coupon_steps(const CouponSizes& sizes, CouponUnits units);
/// The same beside a drawing that bears the sizes.
std::vector<std::string> coupon_sheet_steps(CouponUnits units);
std::string coupon_board_words(const CouponSizes& s, CouponUnits units);
/// A length in the paper's unit alone, for a drawing: "16 in", "400 mm".
std::string coupon_length_text(double metres, CouponUnits units);
/// Why not a strip.
std::string no_strip_words();
/// What sags are to be expected, least to most [m], under the lighter weight.
std::string usual_sag_words(double least, double most, CouponUnits units);

/// "3.5 lb/in (620 N/m)"; "2.9 to 4.3 lb/in (510 to 754 N/m)".
std::string pull_range_words(double low, double high);
/// "sag 0.04 to 0.20 in (1.0 to 5.0 mm)" of two sags [m].
std::string sag_range_words(double low, double high);
/// "7.0 % warp, 6.0 % fill".
std::string shrink_words(double warp, double fill);

/// A reading that cannot be: mass [kg], sag [m], the pull [N/m] that it means, the pulls and sags that may be.
struct CouponSlipOfHand {
  double temperature = 0, mass = 0, sag = 0, pull = 0;
  double least_pull = 0, most_pull = 0, least_sag = 0, most_sag = 0;
};
std::string implausible_words(const CouponSlipOfHand& s);
/// Readings of a stage that do not agree: each with the pull that it means.
struct CouponSays {
  double mass = 0, sag = 0, pull = 0;
};
std::string contradiction_words(double temperature, const std::vector<CouponSays>& each);
std::string falling_words(double cooler, double pull_there, double hotter, double pull_here);
std::string disc_words(const CouponSizes& sizes, double least_disc, double most_disc);
std::string boards_too_thin_words(const CouponSizes& sizes, double cost, double at_most, double stiff_width);

/// What came out of the boards: told where they cost more than they should.
std::string boards_words(const CouponSizes& sizes, double cost, bool more_than_they_should);
std::string sagging_words(double temperature, double added, double mass);
/// One sigma each, in the logarithm.
std::string left_words(double left, double without);
/// One sigma at stages that were measured, and at the others [K].
std::string left_by_stage_words(double measured, double carried, const std::vector<double>& not_measured);
std::string mean_of_yarns_words();
std::string shrink_says_nothing_words();
/// Sizes that were not said; empty where all were.
std::string sizes_assumed_words(const CouponSizes& sizes, bool inside, bool disc, bool boards);
/// For the sheet to fill in, where no boards of stock are stiff enough.
std::string boards_will_cost_words(double cost);
std::string spread_of_shrink_words();

}  // namespace evenpull::viz
