// The pull of a cloth from a coupon: cloth cemented to a stiff wooden square, ironed stage by stage, a disc in its
// middle loaded with weights. From sags to the pull with all that it may be off by (docs/model.md, section 11).
#pragma once

#include "solver/sound/weighted_square.hpp"

#include <vector>

namespace evenpull {

/// What a pull found so may be off by, one sigma as a share of it. All estimates of ours (docs/data.md).
namespace coupon_error {
inline constexpr double sag = 1e-4;          ///< m, of a sag: the difference of two readings of a rule or gauge
inline constexpr double weight = 0.01;       ///< of a weight and of the disc's size, in one
inline constexpr double stretch = 0.4;       ///< of the pull that sagging itself adds: stiffness and shear of the cloth
inline constexpr double sole = 4;            ///< K, true temperature of the sole
inline constexpr double by_sole = 0.0125;    ///< of the pull a K: 1.0 to 1.3 %
inline constexpr double looseness = 0.03;    ///< cloth laid on 0.2 % loose
inline constexpr double missed = 0.03;       ///< spots that the iron missed
inline constexpr double waiting = 0.02;      ///< an hour more or less, cold
inline constexpr double not_listed = 0.057;  ///< brings the usual sum of 8 % to the 10 % that is taken: judgement
inline constexpr double least = 0.10;        ///< never less than this is taken: judgement
}  // namespace coupon_error

/// Two-sided 95 % of a normal distribution, in sigmas.
inline constexpr double sigmas_of_95 = 1.959964;

/// Pulls that ironed polyester cloth can have [N/m]: a reading that means more or less is a slip. Judgement.
inline constexpr double least_coupon_pull = 50, most_coupon_pull = 3000;

struct WeightReading {
  double mass = 0;  ///< put on the disc, besides what lay there when it read nothing [kg]
  double sag = 0;   ///< by that weight alone [m]
};

struct CouponPull {
  double pull = 0;           ///< sqrt(Nx Ny) of the cloth on the square, sagging taken out [N/m]
  double sigma_read = 0;     ///< in the logarithm: readings, weights and what sagging adds
  double sigma = 0;          ///< of all, but the boards
  double added_by_sag = 0;   ///< by the heaviest weight [N/m]
  double disagreement = 0;   ///< chi^2 of the readings about one pull, with one freedom fewer than there are readings
  bool contradicts = false;  ///< that is more than 1 in 1000 sets of good readings show
};

/// Pull from one or more readings: least squares over pull and stretch, the stretch known to `coupon_error::stretch`,
/// so that two weights are carried back to none as far as they tell. Readings of a square share the one without weight.
/// Sizes and readings positive; `stiffness` of the cloth [N/m], `sag_error` of a sag, one sigma [m].
CouponPull coupon_pull(const WeightedSquare& square, const std::vector<WeightReading>& readings, double stiffness,
                       double sag_error = coupon_error::sag);

/// sigma of the whole from that of the readings: budget above, never below `coupon_error::least`.
double coupon_sigma(double sigma_read);
/// The same without the part that is on no list: what the budget itself sums to.
double coupon_budget(double sigma_read);

/// Pull that one reading means by itself, the usual stretch taken out [N/m].
double pull_of_reading(const WeightedSquare& square, const WeightReading& reading, double stiffness);

/// Whether a later, hotter stage pulls less than an earlier one by more than both may be off (95 %, each by itself).
bool falls_surely(const CouponPull& cooler, const CouponPull& hotter);

}  // namespace evenpull
