// Sentences of a plan about its own making: what error bars, meshes and orders had to say.
#pragma once

#include "sequencer/choice/choice.hpp"
#include "sequencer/choice/mid_work.hpp"
#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// A run behind the error bars gave way at this stage [K].
std::string gave_way_elsewhere(double temperature);

/// A run behind the error bars found no equilibrium at this stage [K].
std::string unsolved_elsewhere(double temperature);

/// Runs that found no equilibrium and were left out; empty for none.
std::string left_out(const std::vector<std::string>& runs);

/// No order has as few turn-overs in a pass as were wanted.
std::string too_few_turn_overs(int wanted, int fewest);

/// Without its bars the chosen order would hold up to this stage [K].
std::string bars_decide(double without, AccuracyWish accuracy);

/// Working steadily from root to tip beside the handbook's jumping, both on the same mesh; empty if either was not tried.
std::string steady_against_jumping(const std::vector<Tried>& ranked, const Panel& p, int last);

/// What the steps done have brought the frame to already; empty if that is within its limits.
std::string steps_done_note(const RestFound& found);

}  // namespace evenpull
