// What each way of stiffening brings, by planning the changed case.
#pragma once

#include "sequencer/planner/planner.hpp"
#include "shop/stiffen/candidates.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace evenpull {

struct LimitUse {
  Limit limit = Limit::stress;
  double use = 0;  ///< the worst up to the stage wanted
};

/// How a panel stands up to the stage wanted.
struct Standing {
  std::optional<int> bears;  ///< index of the hottest stage of its plan: of a first look, that which holds as stated
  double use = 0;            ///< the worst of all limits of strength and shape
  bool gave_way = false;     ///< the frame gave way on the way: the use says nothing
  std::vector<LimitUse> limits;  ///< in the order of Limit
};
Standing standing_of(const Plan& plan, int stage);

struct Trial {
  Candidate candidate;
  AddedMass added;
  std::optional<Standing> after;        ///< none: no equilibrium was found, or it cannot be computed so
  std::vector<LimitUse> worse;          ///< limits that come nearer, with their use afterwards
  std::optional<Standing> confirmed{};  ///< by a plan with error bars and chances, where that was asked for
};

/// Limits that a change takes nearer by more than can be left unsaid.
std::vector<LimitUse> worse_limits(const Standing& before, const Standing& after);

struct TrialOptions {
  Accuracy accuracy = Accuracy::quick;
  ParallelFor parallel;                          ///< unset: one after the other
  std::function<void(double share)> progress{};  ///< 0..1, from any thread
};

/// Each planned by itself.
std::vector<Trial> try_candidates(const Case& c, const std::vector<Candidate>& candidates, const Standing& before,
                                  int stage, const TrialOptions& options);

/// Plans the first so many of ranked trials anew with that accuracy.
void confirm(const Case& c, std::vector<Trial>& ranked, std::size_t first, int stage, const TrialOptions& options);

}  // namespace evenpull
