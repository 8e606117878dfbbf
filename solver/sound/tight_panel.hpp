// A covered panel with its cloth tight all over, found in one step: for what depends on how the pull is shared out and
// on the shape that tight cloth takes, not on the order of the work.
#pragma once

#include "solver/ironing/ironing.hpp"

namespace evenpull::inline solver {

struct TightPanel {
  Covering state;
  double pull_times = 1;  ///< what its cloth was made to pull, over what it pulls at the temperature
};

/// Cloth shrunk in both yarns by its looseness and by what its pull at this temperature [K] stretches it.
/// Where the frame does not bear that, half of it is tried, three times; what comes out is the state that was found.
/// Throws NotConverged where none is, or the frame gives way under all of them.
TightPanel tight_panel(Ironing& ironing, double temperature);

}  // namespace evenpull::inline solver
