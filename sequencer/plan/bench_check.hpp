// What to measure before going on to the next stage: how far a bay sags under a weight, how it sounds when tapped.
#pragma once

#include "solver/geometry/panel.hpp"

namespace evenpull::inline sequencer {

/// The weight stands on a rigid disc of this diameter [m]: a jar lid.
inline constexpr double check_disc = 0.1016;  // 4 in

/// One bay on one side, in the middle of the cloth that is free there.
struct BenchCheck {
  Side side = Side::top;
  int bay = 0;
  double weight = 0;                 ///< kg, the same for the whole stage
  double sag_low = 0, sag_high = 0;  ///< m: error bars of the pull, and what stretch takes off
  double tap_low = 0, tap_high = 0;  ///< Hz: the same bars, and how much air moves along
};

}  // namespace evenpull::inline sequencer
