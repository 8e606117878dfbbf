// What the case states of the adhesive that holds the cloth: table [adhesive].
#pragma once

#include <optional>

namespace evenpull {

struct Adhesive {
  std::optional<double> peel;   ///< pull per width at which a strip comes off, square to what it is glued to [N/m]
  std::optional<double> shear;  ///< of a lap, mean over its area [Pa]
};

}  // namespace evenpull
