// Hollow ribs: where tight cloth stands off the rib that it is not fastened to, and what it takes to draw it down
// (docs/model.md, section 6). Closed forms; the solver keeps cloth on its ribs from the start.
#pragma once

#include "solver/statement/case.hpp"

#include <vector>

namespace evenpull {

/// The deepest hollow of one inner rib on one side, between the two places on which cloth drawn tight would lie.
struct Hollow {
  int rib = 0;
  Side side = Side::top;
  double from = 0, to = 0;  ///< chord fractions
  double length = 0;        ///< between them [m]
  double lift = 0;          ///< how far tight cloth stands off at most [m]
  double width = 0;         ///< of the cloth that the rib draws down: half of the bays beside it [m]

  /// Of the parabola with this length and this depth [1/m].
  double curvature() const { return 8 * lift / (length * length); }
};

/// Less cannot be told from a rib that is straight [m]: judgement.
inline constexpr double least_hollow = 0.5e-3;

/// Of inner ribs that the cloth touches, by rib, top before bottom. A hollow has a point of the stated profile within, from the seam
/// back; how deep it is the smooth line through the points says.
std::vector<Hollow> hollows_of(const Case& c);

/// Force by length of rib that holds the cloth down [N/m], chordwise pull [N/m]: a cable held on a curve presses with pull
/// times curvature. Taken for the whole width, which is the most, since cloth between ribs follows only in part.
double line_load(const Hollow& h, double pull);

/// What the pull grows by at most when the cloth is drawn down [N/m]: the parabola is longer than its chord by 8/3 of
/// (depth over length) squared, and neither end gives. `stiffness` of the cloth along the chord [N/m].
double pull_added(const Hollow& h, double stiffness);

}  // namespace evenpull
