// From what was run to a plan: every part of it in its place, and what it has to say of itself.
#pragma once

#include "sequencer/choice/pass_choice.hpp"
#include "sequencer/planner/ranking.hpp"
#include "sequencer/planner/verdict.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// What was run on the plan's mesh, and what it came out of.
struct PlanRuns {
  std::vector<Tried> full;    ///< on the plan's mesh, at least one
  std::size_t best = 0;       ///< of `full`
  Ranking ranking{};          ///< empty where the order was given
  PassChoice passes{};        ///< trials; empty where the case states its passes
  Verdict verdict{};          ///< of the best
  std::vector<Step> given{};  ///< steps that somebody chose; empty: the plan chose
};

/// Working steadily from root to tip beside the handbook's jumping, both on the mesh of the ranking; none if either was not
/// tried or gave way.
std::optional<note::SteadyAgainstJumping> steady_against_jumping(const std::vector<Tried>& ranked, const Panel& p,
                                                                 int last);

/// Tells all that came of it, what was read since included.
Plan report(const PlanJob& job, const Model& full, PlanRuns runs);

}  // namespace evenpull::inline sequencer
