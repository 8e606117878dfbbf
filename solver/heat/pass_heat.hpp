// What a pass of the iron really does: how long to stay, and the dose it leaves on open cloth and over the nose
// (docs/model.md, section 4).
#pragma once

#include "solver/heat/dose.hpp"

#include <optional>

namespace evenpull::inline solver {

/// Of the best dose that a setting can give: more would take for ever.
inline constexpr double most_of_best = 0.97;
/// A place that gets at least this share of the dose asked for has reached it.
inline constexpr double reach_share = 0.9;

/// One kind of place in a pass.
struct SpotHeat {
  double contact = 0;      ///< s that the sole lies on each spot
  double dose = 0;         ///< of the slower yarn, mean over the sole
  double faster_dose = 0;  ///< of the faster one
  /// Two places in three lie between: swing and scatter of the hand together, from the slower yarn to the faster
  double dose_low = 0, dose_high = 0;
  double best_dose = 0;  ///< with the longest dwell
  bool reaches = true;   ///< the dose asked for: `reach_share` of it at least
  double peak = 0;       ///< hottest cloth [K]
  double sag = 0;        ///< K that the sole falls
  double fit_error = 0;  ///< of the lines, share of free shrink
  PassLines lines{};
};

/// How a pass is had with this iron.
enum class PassWay {
  hold,     ///< at the stage's setting, the sole placed or drawn slowly
  touch,    ///< at the stage's setting, a contact shorter than the cloth needs to warm through
  setting,  ///< at a lower setting, held as for a full pass
};

struct PassHeat {
  double stage_temperature = 0;  ///< K
  double asked = 0;              ///< dose
  PassWay way = PassWay::hold;
  double sole_temperature = 0;  ///< true, to be set [K]
  SpotHeat open;
  std::optional<SpotHeat> nose;  ///< over metal or wood, if the case has a nose that the cloth bears on
};

/// Heat of a pass with this dose at a stage of this true temperature; `contact` > 0 states the contact time instead, the
/// same everywhere.
PassHeat pass_heat(const Case& c, double stage_temperature, double dose, double contact = 0);

/// True of a light pass that is no longer one to the faster yarn.
bool yarns_too_unlike(const PassHeat& p);

/// True if the passes of this dose come out alike enough to be called so with this iron and this hand.
bool can_be_had(const PassHeat& p);

/// The same pass with the sole hotter by `warmer` [K] and the contact times multiplied by `longer`: how it went, not how
/// it was meant.
PassHeat as_it_went(const Case& c, const PassHeat& meant, double warmer, double longer);

/// Highest point of the swing that a spot has met in the mean after so many passes, each at a moment of its own: in swings
/// above the mean of the sole, from 0 (one pass) towards 1. Shrink never grows back, so that point is what counts.
double top_of_swing_met(int passes);

/// Whether a pass of this dose holds the cloth at the setting, so that the top of the swing counts; else it is a light one.
bool is_full_pass(double dose);

/// Contact time that a case states for a pass (from 1) of a stage worked with the dose it lists; 0: none.
double stated_contact(const Case& c, int stage, int pass, double dose);

}  // namespace evenpull::inline solver
