// Cloth that was ironed before, and a piece let into it: what more can come out of the old, and how hot the new piece is ironed to pull
// like its surroundings (docs/model.md, section 13). Cloth held at its edges, both yarns alike in what is read of them.
#pragma once

#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull {

/// What is known of cloth that is on.
struct OldCloth {
  double pull = 0;                  ///< as it was read now: root of chord times span [N/m]
  double off = 0.1;                 ///< of that reading, one sigma in the logarithm
  std::optional<double> hottest{};  ///< true sole temperature that it has seen [K]; none: nobody knows
};

/// Of 100 such cloths 95 pull between low and high.
struct PullBand {
  double low = 0, median = 0, high = 0;  ///< N/m
};

struct MoreToCome {
  double temperature = 0;        ///< K
  PullBand pull;                 ///< after ironing at it
  bool perhaps_nothing = false;  ///< it has seen that already, or may have: then perhaps no more than now comes
};

/// By stage of the case. Throws CaseError where the cloth of the case could not reach its own pull.
std::vector<MoreToCome> more_to_come(const Case& c, const OldCloth& old);

/// How hot a piece of new cloth is ironed to pull as much as its surroundings.
struct PatchIron {
  double begin = 0;     ///< K: 39 of 40 such pieces pull no more than the surroundings there
  double likely = 0;    ///< K: half of them
  bool reached = true;  ///< within the hottest stage of the case; else `likely` is that
  PullBand at_likely;
};
/// In whole degrees Fahrenheit, from where such cloth begins to shrink.
PatchIron patch_iron(const Case& c, const OldCloth& surroundings);

/// Pull of cloth held at its edges after full ironing at a temperature, from `slack` (share of its length) on: docs/model.md,
/// section 3, N = (s - x)/(c + s/Nc), mean of both yarns in the logarithm; 0 where it does not come tight.
double pull_from_slack(const Cloth& cloth, double temperature, double slack);

}  // namespace evenpull
