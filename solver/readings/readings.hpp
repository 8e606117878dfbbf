// What is read off a covering after each step: docs/model.md, section 7. Numbers and places, no judgement.
#pragma once

#include "solver/equilibrium/covering.hpp"
#include "solver/equilibrium/equilibrium.hpp"
#include "solver/equilibrium/model.hpp"
#include "solver/readings/sag.hpp"
#include "solver/readings/unevenness.hpp"

#include <vector>

namespace evenpull::inline solver {

/// Pull of one quad [N/m], mean over its triangles.
struct QuadPull {
  Mandel yarn;  ///< warp, fill, sqrt(2) shear
  double chord = 0, span = 0;
  Principal principal;  ///< angle from the warp [rad]
};
QuadPull quad_pull(const Model& m, const Covering& s, int quad);

/// A zone counts as loose where its mean larger principal pull is below Model::loose_pull, or where more than this share of
/// its area is: a tenth of a usual zone is a patch of the size of a palm, which an eye and a hand find; less, at a corner, is
/// the work of the mesh. Judgement.
inline constexpr double most_loose_in_a_zone = 0.1;

/// Above this chordwise pull [N/m] cloth at the trailing edge counts as tight and its slip is judged: a fifteenth of the
/// most that its yarns pull along the chord (docs/model.md, section 7). No pull along the chord at all: never.
double tight_above(const Model& m);

/// Area-weighted means over zones, by Panel::zones [N/m].
struct ZonePulls {
  std::vector<double> chord, span, warp, fill;
};
/// Area-weighted mean over the zones of one bay and side; `zone_values` by Panel::zones.
double bay_mean(const Panel& p, const std::vector<double>& zone_values, Side side, int bay);

/// A worst value and where it stands. Indices are into Panel; -1 = does not apply.
struct Worst {
  double value = 0;
  int member = -1;
  int joint = -1;
  int bay = -1;
  int column = -1;
  int side = -1;
};

/// A worst share of what a stress may be.
struct WorstStress : Worst {
  double allowed = 0;        ///< Pa, at that place
  bool compression = false;  ///< it is the pressed fibre, which bears another stress than the pulled one
  bool at_weld = false;      ///< beside a weld
};

/// A bow as it reads at once, and what is allowed of it.
struct WorstBow : Worst {
  double allowed = 0;  ///< when the pull has lasted; 0: not limited
  double lasting = 1;  ///< what the bow grows by when the pull lasts (wood creeps)
  double use() const { return allowed > 0 ? lasting * value / allowed : 0; }
};

struct Readings {
  ZonePulls zones;
  WorstStress stress_use;                         ///< worst stress / allowable of all members
  WorstStress metal_stress_use, wood_stress_use;  ///< of those of metal, of wood; member -1: there are none
  std::vector<double> beam_use;
  /// Compression in thin flats / that at which they cripple, worst of all members; member -1: none is judged.
  Worst crippling;
  std::vector<double> beam_crippling;  ///< the same of each beam; 0: not judged
  /// Compression in the legs of a folded trailing edge / that at which they go wavy; member -1: there are none.
  Worst waves;
  WorstBow edge_bow;        ///< deviation of the TE from straight between ribs / rib spacing; of the bay of largest use
  WorstBow end_rib_bow;     ///< deviation of an end rib (or tip bow) between its ends / their distance
  WorstBow hinge_line_bow;  ///< of the member with the hinges between the outermost of them [m]; member -1: none
  WorstBow whole_edge_bow;  ///< of the whole TE from straight / its length
  WorstBow pocket_closing;  ///< what a pocket loses of its gap [m]; member -1: there is no pocket
  std::vector<double> edge_bows;         ///< shares of every bay
  std::vector<double> end_rib_bows;      ///< of both end ribs (or end rib and tip bow), in the order of members
  std::vector<double> edge_bow_uses;     ///< the same as uses of their limits
  std::vector<double> end_rib_bow_uses;  ///< likewise
  double twist = 0;                      ///< rad, difference of chord line slopes along the span
  std::vector<double> rib_slopes;        ///< rad, of the chord line at each rib
  double tip_turn = 0;                   ///< rad, rib furthest out against the innermost, + trailing edge up at the tip
  double frame_turn = 0;                 ///< largest rotation of a joint [rad]; the TE about itself left out
  /// m, signed: + cloth gone from the bottom to the top; only where the cloth is tight on one side at least
  Worst slip;
  std::vector<double> slips;     ///< m, of every station where cloth can go round the TE; 0 where it is not judged
  double creep = 0;              ///< largest creep over ribs and nose [m]
  Worst difference_chord;        ///< N/m, top minus bottom, worst bay
  Worst difference_span;         ///< N/m
  double spread_along_span = 0;  ///< N/m: largest minus smallest bay mean of the chordwise pull, worse side
  double unevenness = 0;         ///< worst of the four below
  Unevenness unevenness_by_side[2];
  double loose_share = 0, puckered_share = 0;
  std::vector<int> loose_zones;    ///< zones that count as loose, see most_loose_in_a_zone; rising
  Sag sag;                         ///< between ribs, and the thickness that it takes off the profile
  double lift = 0;                 ///< N: largest force by which cloth lifts off a bearing
  std::vector<double> wire_pulls;  ///< N, of each wire (Model::wires); 0: it is slack
};

Readings read_off(const Model& m, const Covering& s);

/// Per side: area-weighted mean of a zone value.
double side_mean(const Panel& p, const std::vector<double>& zone_values, Side side);

}  // namespace evenpull::inline solver
