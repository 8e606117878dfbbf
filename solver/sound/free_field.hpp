// The cloth of a bay that touches nothing but its border: where a weight is laid on and what sounds when it is tapped.
#pragma once

#include "solver/geometry/panel.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline solver {

struct FreeField {
  Side side = Side::top;
  int bay = 0;
  int first_row = 0, last_row = 0;        ///< chordwise stations of its border
  int first_column = 0, last_column = 0;  ///< spanwise stations of its border
  double chordwise = 0, spanwise = 0;     ///< m, through its middle
  std::vector<int> quads;                 ///< index into Panel::quads
};

/// The longest stretch along the chord, in the middle of the bay, that touches no member; it ends at the next ribs that
/// carry it. None where the bay is not in the middle between these, or where there are no two rows or columns of quads.
std::optional<FreeField> free_field(const Panel& p, Side side, int bay);

}  // namespace evenpull::inline solver
