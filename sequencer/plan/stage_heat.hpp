// What the iron does at a stage: its passes, and how much of the cloth each further one brings to full shrink.
#pragma once

#include "solver/heat/pass_heat.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// Share of the area that is done after 1, 2, ... full passes, with swing, coverage and hand as stated.
struct PassCount {
  std::vector<double> done;    ///< share with at least 1 - band of full shrink, by number of passes
  std::vector<double> beyond;  ///< share with more than 1 + band
  double error = 0;            ///< of these shares, from how they differ between scrambled halves of the sample
  int least = 0;               ///< passes until the wanted share is done; 0: not within those tried
};

/// A zone where some cloth does not get what the pass asks for.
struct ShortZone {
  int zone = 0;     ///< index into Panel::zones
  double dose = 0;  ///< over its nose, with the longest dwell that makes sense
};

/// Full passes that are tried.
inline constexpr int most_passes = 5;

struct StageHeat {
  std::vector<PassHeat> passes;   ///< as the case lists them
  PassCount open;                 ///< over open bays
  std::optional<PassCount> nose;  ///< over metal or wood
  std::vector<ShortZone> short_zones;
};

}  // namespace evenpull::inline sequencer
