// Which weights to hang where, and where to read, before anything was read: the few that say most of what is unknown
// of the bare frame, without harm to it.
#pragma once

#include "shop/push_readings.hpp"

#include <vector>

namespace evenpull {

/// Of the allowable stress, with joints at either end of their range. Judgement.
inline constexpr double most_push_use = 0.1;
/// m: a movement that a ruler still reads to an eighth (estimate), and the largest that is asked for, small beside
/// any bay.
inline constexpr double least_push_movement = 2e-3, most_push_movement = 15e-3;
/// Standard gravity [m/s^2].
inline constexpr double gravity = 9.80665;

struct ChosenRead {
  FramePlace place;
  double down = 0;           ///< m, expected as stated
  double low = 0, high = 0;  ///< between which 95 of 100 such frames read
};

struct ChosenPush {
  FramePlace load;
  double kilograms = 0;
  double use = 0;  ///< of the allowable stress, at the worse end of the joints
  std::vector<ChosenRead> reads;
};

struct PushChoice {
  std::vector<PushFactor> factors;
  std::vector<ChosenPush> pushes;
  std::vector<double>
      deviation_after;  ///< of each factor, in sigmas of what it was before, if all is read as errors allow
};

/// Two or three weights; fewer where the frame has no more places that move. Every read is at the weight itself and
/// at one place more.
PushChoice choose_pushes(const Case& c, PushFrame& frame, bool each_group, const PushErrors& errors);

/// Weights at hand in a workshop [kg].
const std::vector<double>& usual_weights();

/// The heaviest of them that loads the frame to no more than most_push_use and moves nothing by more than
/// most_push_movement; 0 where even the lightest does. `per_newton`: use and movement under 1 N.
double heaviest_weight(double use_per_newton, double movement_per_newton);

}  // namespace evenpull
