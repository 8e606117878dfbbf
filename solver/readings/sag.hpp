// Sag of the cloth between ribs and what it takes off the profile (docs/model.md, section 7). A fabric under pull both
// ways cannot follow a curved profile between the ribs that give it its curve: it lies nearer the chord line there.
#pragma once

#include <vector>

namespace evenpull::inline solver {

struct Model;
struct Covering;

/// Thickness that a covered profile lacks at one place between two ribs, against the surface that the ribs carry.
struct ThicknessLoss {
  double loss = 0;             ///< m, both skins together; negative where the cloth stands out
  double top = 0, bottom = 0;  ///< m, share of each skin in it
  double thickness = 0;        ///< m, between the two skins of the surface that the ribs carry, at this place
  int bay = -1;                ///< -1: there is no cloth free between ribs
  double chord_fraction = 0;
  /// Share of the local thickness.
  double share() const { return thickness > 0 ? loss / thickness : 0; }
};

struct Sag {
  /// Of each cloth node: distance inward from the true surface between the ribs [m], positive inward. The true surface
  /// joins, station by station along the chord, the two rib lines beside the bay by straight lines, both as moved: what
  /// the ribs do is no sag, what a spar cap or an edge does between them is.
  std::vector<double> inward;
  /// The largest loss in each bay. Cloth that lies on metal (seam, nose, TE) does not count.
  std::vector<ThicknessLoss> bays;
};

Sag read_sag(const Model& m, const Covering& s);

/// The largest loss of all bays.
ThicknessLoss worst_loss(const std::vector<ThicknessLoss>& bays);

}  // namespace evenpull::inline solver
