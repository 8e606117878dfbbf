// What a pass of the iron does to the shrink of a yarn: straight lines of shrink over pull. Three names tell apart what a
// line is a line of (docs/model.md, sections 3 and 4):
//   PassLine        one pass, one kind of place (open bay or nose), one yarn; whatever shrink the cloth has already
//   LoadLine        one step, one triangle, one yarn: the pass line with that triangle's own shrink put in (fabric_law.hpp)
//   PanelLoadLines  one step: the load lines of all triangles (solver/equilibrium/equilibrium.hpp)
#pragma once

#include "solver/cloth/fabric_law.hpp"

#include <array>

namespace evenpull::inline solver {

/// s_end = max(s_old, kept s_old + a - b N).
struct PassLine {
  double kept = 1;        ///< share of the shrink so far that stays in the sum
  double a = 0;           ///< shrink of unshrunk cloth with no pull on it [strain]
  double b = 0;           ///< shrink lost per pull [m/N]
  double creep_pull = 0;  ///< Nc at the hottest moment [N/m]
};
using PassLines = std::array<PassLine, 2>;  ///< warp, fill

/// The load line of one yarn of a triangle that has shrunk so far.
LoadLine load_line(const PassLine& pass, double shrink_so_far, double creep_share);

}  // namespace evenpull::inline solver
