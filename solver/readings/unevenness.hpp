// How far the zones of one side differ in pull: docs/model.md, section 7. The one definition for readings and gauges.
#pragma once

#include <optional>
#include <vector>

namespace evenpull::inline solver {

/// A zone as it counts here: its area [m^2] and its mean pulls [N/m].
struct ZonePull {
  double area = 0, chord = 0, span = 0;
};

/// Coefficient of variation over zone means, each by its area; none in a direction that carries next to nothing.
struct Unevenness {
  std::optional<double> chord, span;
  double worst() const;  ///< of those judged, 0 if none is
};

/// A direction whose mean pull is less than this share of the other's carries nothing worth evening out: at the default
/// limit of 25 % its zones would differ by a fortieth of the pull that counts, about what a bench can tell apart. Judgement.
inline constexpr double least_carried = 0.1;

/// Of the zones of one side.
Unevenness unevenness_of(const std::vector<ZonePull>& side);

}  // namespace evenpull::inline solver
