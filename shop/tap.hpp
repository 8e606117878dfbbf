// From the tone of a tap, or the sag under a weight, to the pull of the cloth in a bay, with what it may be off by. The
// pull told is sqrt(chordwise x spanwise), shared out between the two as the cloth of the case shares it; a tone
// weighs the chordwise pull by BayTone::chord_weight and the spanwise one by the rest (docs/model.md, section 12).
#pragma once

#include "solver/sound/bay_tone.hpp"

#include <optional>
#include <vector>

namespace evenpull {

/// What lies behind the cloth that is tapped. `either`: not said, so open and skin are both reckoned.
enum class Behind { either, open, skin, held };

struct ToneReading {
  Side side = Side::top;
  int bay = 0;
  double tone = 0;  ///< Hz
  double off = 0;   ///< one sigma of its logarithm
};

struct SagReading {
  Side side = Side::top;
  int bay = 0;
  double weight = 0;  ///< kg, on a rigid disc of `disc`
  double sag = 0;     ///< m, with the weight less without
};

/// What is known besides the reading; one sigma of logarithms. All of it estimates.
struct TapData {
  double areal_mass = 0;             ///< kg/m^2, dope included
  double areal_mass_off = 0.05;      ///< of stated cloth as bought, dry
  double air_density = 1.2;          ///< kg/m^3, 20 degC at sea level
  double air_density_off = 0.03;     ///< weather and height of a workshop
  double geometry_off = 0.03;        ///< tape, mesh, the mode's shape
  double yarns_off = 0.11;           ///< of chordwise over spanwise pull: each yarn by 0.08
  double two_skins_off = 0.05;       ///< of one skin's pull from the mean of both, where they sound as one
  double shape_stiffness_off = 0.5;  ///< of what curved cloth adds, as a share of it
  double sag_off = 0.25e-3;          ///< m, of a sag read off (Wanted::sag_reading)
  double weight_off = 0.05;          ///< place, weight, lid, formula: docs/model.md, section 10
  double stiffness = 0;              ///< of the stiffer yarn [N/m]: what stretch takes off a sag
  double disc = 0;                   ///< m, diameter
};

struct PullRange {
  double middle = 0, low = 0, high = 0;  ///< N/m: median, and between which 95 of 100 lie
};

/// Shares of the variance of the logarithm.
struct PullDoubt {
  double reading = 0, cloth_mass = 0, air = 0, shape = 0;
};

struct ToneRead {
  ToneReading reading;
  const BayTone* bay = nullptr;
  std::optional<PullRange> open, skin;  ///< by what may lie behind; none: not reckoned
  std::optional<PullRange> pull;        ///< of both together the wider; none: air shut in governs, only ratios are told
  PullDoubt doubt;                      ///< of `skin` where that is reckoned, else of `open`
  double air_over_cloth = 0;            ///< moving mass of the air over that of the cloth, middle
  double shut_in = 0;                   ///< share of the shut-in air in the stiffness of the tone, ribs tight
  std::optional<PullRange>
      against_first;  ///< what its tone says over what the first such reading says, where no pull is told
};

struct SagRead {
  SagReading reading;
  const BayTone* bay = nullptr;
  std::optional<PullRange> pull;
  enum class Trouble { nothing, too_deep, too_small_for_disc } trouble = Trouble::nothing;
};

/// Above this share of the tone's stiffness the air that is shut in says more than the cloth: no pull is told.
/// Judgement.
inline constexpr double most_shut_in = 0.5;
/// Deeper than this share of the short side a sag is mostly stretch; judgement.
inline constexpr double deepest_sag = 0.04;
/// A disc wider than this share of the short side is no point load any more (as sequencer/sure/bench_checks.cpp).
inline constexpr double widest_disc = 0.4;

/// `other`: the skin behind, none where it is not tight or there is no field.
ToneRead pull_from_tone(const BayTone& bay, const BayTone* other, const ToneReading& r, const TapData& d,
                        Behind behind);

/// Fills in `against_first` of readings of which no pull is told.
void compare_tones(std::vector<ToneRead>& reads, const TapData& d);

SagRead pull_from_sag(const BayTone& bay, const SagReading& r, const TapData& d);

/// Both numbers of 95 % of a lognormal, for a pull of this median: exp(+-1.96 off).
PullRange lognormal_range(double median, double off);

}  // namespace evenpull
