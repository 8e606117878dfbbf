// Which ways of stiffening can lift the limit that stops a stage.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "shop/stiffen/candidate.hpp"

namespace evenpull {

/// What keeps a plan from a stage.
struct StageBar {
  int stage = 0;                     ///< the one wanted
  std::optional<LimitReading> over;  ///< the worst reading up to it; none: loose cloth or nothing that was read
  bool gave_way = false;             ///< the frame gave way on the way there
  std::optional<Place> bows_most{};  ///< of the buckling mode, where one is known
  std::vector<int> loose_zones{};    ///< not tight at its end
};
StageBar bar_of(const Plan& plan, int stage);

/// What can lift that limit, cheapest first within what comes out and what stays; no more than `most_candidates`. None
/// where nothing of the kind can: slip, say, is a matter of order and friction.
inline constexpr std::size_t most_candidates = 7;
std::vector<Candidate> candidates_for(const Case& c, const Panel& p, const StageBar& bar, const UsualStock& stock);

}  // namespace evenpull
