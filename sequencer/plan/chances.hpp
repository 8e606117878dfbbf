// How sure the plan is, given what is not known well: chances of each limit, what matters most, zones at risk.
#pragma once

#include "sequencer/plan/limit.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// A share found by sampling, with the 95 % interval of Clopper and Pearson.
struct Chance {
  int hits = 0, of = 0;
  double low = 0, high = 1;
  double share() const { return of > 0 ? static_cast<double>(hits) / of : 0; }
};
/// With the 95 % interval of Clopper and Pearson.
Chance chance_of(int hits, int of);

/// What is not known well, in the order of a scenario's numbers. `joints`: how far joints turn and supports give, only where
/// the case has such a range; its numbers come after all others.
enum class Unsure {
  free_shrink,
  pull,
  cloth_stiffness,
  member_stiffness,
  friction,
  looseness,
  half_time,
  sole,
  joints
};
inline constexpr int unsure_count = 8;  ///< without `joints`

/// Chance that a limit is exceeded at a stage.
struct LimitChance {
  Limit limit = Limit::stress;
  int stage = 0;
  Chance over;
};

/// How much of what is uncertain in the governing use comes from one input.
struct InputWeight {
  Unsure input = Unsure::pull;
  double spread = 0;         ///< share; of the sole K; of joints none: they are drawn over their range
  double share = 0;          ///< squared standardised regression coefficient, as a share of the variance
  double low = 0, high = 0;  ///< 90 % interval by bootstrap
  double sign = 0;           ///< +1: more of it, more use
};

/// Risk that a zone ends up pulling unevenly or that its cloth slides.
struct ZoneRisk {
  Chance uneven;  ///< final pull off the panel's mean by more than the wanted share
  Chance slides;  ///< slip at its stations above the wanted length
};

/// The reduced model beside one that takes zone by zone on a finer mesh, on scenarios run through both.
struct Agreement {
  int scenarios = 0;
  int nodes = 0;     ///< of the finer mesh
  double ratio = 1;  ///< full / reduced of the governing use in the nominal run, by which the reduced one is corrected
  double rms = 0;    ///< of (corrected reduced use / that of the other - 1); none corrected by itself
  double worst = 0;
  int decisions = 0;  ///< of `scenarios`: both say the same about holding every limit
};

/// Chance that something is really damaged by the end of a stage or before: yield, rupture, buckling themselves, no reserve.
struct DamageChance {
  double fitted = 0;  ///< by the fit, shifted by what the runs at the edge found beyond it
  Chance counted;     ///< of the scenarios themselves
  bool known = true;  ///< false: the runs at the edge scatter too much about the fit
  /// What is said: the fit, unless what was counted is surely more.
  double chance() const { return counted.low > fitted ? counted.share() : fitted; }
};

/// How the fit of damage stood up to runs drawn where it puts the edge.
struct EdgeCheck {
  int runs = 0;
  double mean = 0, scatter = 0;  ///< of (run - fit), logarithms
  double fit_scatter = 0;        ///< of the scenarios about the fit
  double shift = 0;              ///< by which the fit was raised
};

/// A reading of the shape when a stage is done, cold and off the rests.
struct ShapeReading {
  Limit limit = Limit::edge_bow;  ///< bows (shares of a distance; of the hinge line m), twist (rad), slip (m)
  int stage = 0;
  double expected = 0;
  double seldom_more = 0;  ///< 2 in 100 of the scenarios that hold every limit read more
};

struct Chances {
  int scenarios = 0;         ///< that were run; 0: no study
  int nodes = 0;             ///< of the reduced model
  int last_stage = 0;        ///< the study follows the order up to this stage
  double confidence = 0;     ///< asked for, of keeping the shape
  double damage_wanted = 0;  ///< asked for, of damage
  std::vector<Chance>
      holds;  ///< by stage up to last_stage: the whole history holds every limit, reserves and finish too
  std::vector<Chance> shape;         ///< by stage: no limit of distortion is passed by then
  std::vector<DamageChance> damage;  ///< by stage
  EdgeCheck edge;
  std::vector<LimitChance> limits;
  std::vector<ShapeReading> shapes;
  std::optional<Limit> governing;  ///< none: nothing was judged. Whose use the weights explain, and at which stage
  int governing_stage = 0;
  double explained = 0;              ///< R^2 of the regression
  std::vector<InputWeight> weights;  ///< largest first
  std::vector<ZoneRisk> zones;       ///< by Panel::zones, at risk_stage
  int risk_stage = 0;
  Agreement agreement;
  bool unsolved = false;  ///< wanted, but the order as planned found no equilibrium on the reduced model
};

}  // namespace evenpull::inline sequencer
