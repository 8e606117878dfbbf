// What the glued lines bear, where they would let go first, and the tapes over them.
#pragma once

#include "shop/adhesive.hpp"
#include "shop/trimming.hpp"

#include <optional>
#include <vector>

namespace evenpull {

enum class SeamAt { leading_edge, trailing_edge, end_rib, tip_bow, pocket_front, pocket_sides, hinge_gap, inner_rib };

/// The pull that cloth may have once it is cold: the one at which it no longer shrinks (docs/model.md, section 3), which no
/// pass takes it beyond; with what nobody knows of it.
struct SeamPull {
  double likely = 0;  ///< N/m
  double high = 0;    ///< 97.5 of 100 cloths pull less [N/m]
};

struct GlueLineCheck {
  SeamAt line = SeamAt::leading_edge;
  int number = 0;     ///< of the rib, pocket or gap, from 0
  double length = 0;  ///< both sides together where there are two [m]
  double width = 0;   ///< glued [m]
  SeamPull pull{};    ///< square to the line
  double shear = 0;   ///< mean over the width, of the high pull [Pa]
  /// What a peel test would have to bear for the line to hold: T^2/(2 Et) + T (1 - cos of the angle at which the cloth leaves
  /// the line) (Kendall, J. Phys. D 8, 1975, from memory), of the high pull [N/m].
  double peel = 0;
  double leaves_at = 0;                           ///< that angle [rad]; 0: along the surface
  std::optional<double> shear_use{}, peel_use{};  ///< of what the case states
  bool cloth_on_cloth = false;
  bool narrow = false;      ///< narrower than common practice laps it
  double usual = 0;         ///< what practice laps at the least [m]
  bool edge_shows = false;  ///< a cut edge that no tape hides
};

/// Where a glued edge lets go first.
struct PeelPlace {
  enum class Kind {
    corner,         ///< of an end rib with an edge: the tuck is slit there and both yarns pull
    pocket_corner,  ///< within the cloth: a slit that runs on
    gap_corner,
    bow,     ///< edge curved in plan: the tuck lies in pleats
    hollow,  ///< the cloth stands off the ribs
    bias     ///< the edge runs between the yarns
  } kind = Kind::corner;
  int number = 0;           ///< of pocket or gap, from 0
  double much = 0;          ///< resultant pull [N/m]; depth of a hollow [m]; angle from the nearest yarn [rad]
  double from = 0, to = 0;  ///< of a hollow: chord fractions
  std::optional<Side> side{};
  SeamAt line = SeamAt::leading_edge;  ///< of a bias
};

struct TapeLength {
  SeamAt over = SeamAt::leading_edge;
  int count = 0;
  double width = 0, length = 0;  ///< of all together [m]
};

struct SeamCheck {
  double stage = 0;  ///< of which the pull is [K]
  std::vector<GlueLineCheck> lines;
  std::vector<PeelPlace> places;
  std::vector<TapeLength> tapes;
  double weakest_shear = 0, weakest_peel = 0;  ///< that the adhesive must have for twice the pull [Pa], [N/m]
};

/// A line is told that takes more than this share of what the adhesive is said to bear: a half, as of metal. Judgement.
inline constexpr double most_of_glue = 0.5;

/// `stage`: hottest that it will be ironed at [K].
SeamCheck check_seams(const Case& c, const SeamStatement& seam, const Adhesive& glue, double stage);

}  // namespace evenpull
