// Newton's way from cloth without pull to cloth under load is long and may get lost where nothing but the load makes
// the pull; a pull of the right size to start from is enough.
#pragma once

#include "tests/support/cloth_patch.hpp"

namespace evenpull::published {

/// First guess of the pull [N/m], the same in all directions and everywhere.
inline void guess_pull(check::PatchSolver& s, double pull) {
  constexpr double product = 1e-2;  // of pull and wrinkle strain: the first smoothing a patch goes through [N/m]
  for (Tension& t : s.state().tension) {
    t.pull = {pull, pull, 0};
    t.wrinkle = {product / pull, product / pull, 0};
  }
}

}  // namespace evenpull::published
