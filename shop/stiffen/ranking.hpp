// Which of the ways that were tried is told first.
#pragma once

#include "shop/stiffen/trial.hpp"

#include <vector>

namespace evenpull {

enum class Help {
  bears,    ///< the panel bears the stage wanted
  helps,    ///< nearer to it, not there
  nothing,  ///< as good as no change, or worse
  unknown   ///< it could not be computed
};

/// The use falls by less than this: as good as no change. Judgement: the mesh of a first look moves it as much.
inline constexpr double least_gain = 0.03;

/// Use before less use after; of a frame that gave way before and stands now, what is left of the limit.
double gain_of(const Standing& before, const Trial& t);
Help help_of(const Standing& before, const Trial& t, int stage);

/// Those that bear the stage come first, then those that help; of either what comes out before what stays, and then by
/// gain for the cost. What does nothing comes last. Ties stand as they were.
void rank(std::vector<Trial>& trials, const Standing& before, int stage);

}  // namespace evenpull
