// Where the cloth is cut out: pockets in the trailing edge and hinge gaps in the nose. docs/model.md, section 1.
#pragma once

#include "solver/geometry/mesh_lines.hpp"
#include "solver/geometry/surface.hpp"

#include <vector>

namespace evenpull::inline solver {

/// The rib at a station [m]; -1 if none stands within `rib_slack` of it.
int rib_at_station(const Case& c, double station);
inline constexpr double rib_slack = 1e-4;  ///< m; what a station written in another unit may be off by. Judgement

/// Chord fraction of a pocket's front: its depth at the middle of its length, and so all along. Where a span member or
/// the front of an earlier pocket stands nearer than `least_apart`, it is there.
double pocket_front(const Case& c, const Pocket& p);
/// The span member that stands at a pocket's front; -1: none, the pocket has its own.
int member_at_front(const Case& c, const Pocket& p);
/// Chord fraction at which a hinge gap ends, by its depth at its middle. Nearer to the end of the metal nose than
/// `least_apart` it is there.
double gap_end(const Case& c, const HingeGap& g);

/// Stretch of a bay as shares of its width.
struct BayStretch {
  int bay = 0;
  double from = 0, to = 0;
};
/// What a stretch of the span covers of each bay that it touches.
std::vector<BayStretch> bays_between(const Case& c, double from, double to);

/// Shares of a bay's width at which hinge gaps begin or end inside it, rising.
std::vector<double> gap_ends_inside(const Case& c, int bay);

/// On the mesh: those of the pockets, then those of the hinge gaps, in the order of the case.
std::vector<CutOut> cut_outs_on(const Case& c, const MeshLines& lines);

/// Which zones there are where cloth is cut out. By the outline alone, so that all meshes of a case have the same: a strip
/// of which less than half is left in a bay goes to its neighbour there (judgement: a sliver cannot be worked by itself).
class ZonesLeft {
 public:
  ZonesLeft(const Case& c, const Surface& s, const MeshLines& lines);
  /// The strip to which a quad of this bay and row belongs.
  int strip(int bay, int row) const;

 private:
  int parts_ = 1;                          // strips of the mesh for one of the case
  std::vector<int> strip_rows_;            // as MeshLines
  std::vector<std::vector<int>> of_case_;  // [bay][strip of the case]: itself, or the one that it goes to
};

}  // namespace evenpull::inline solver
