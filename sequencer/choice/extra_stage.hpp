// When a stage is not safe: is it the way there or the end that is too much, and would a stage in between open the way?
#pragma once

#include "sequencer/choice/choice.hpp"
#include "sequencer/plan/advice.hpp"

namespace evenpull::inline sequencer {

/// `judged`: the stage that is not safe, of the chosen order, with error bars; `plain`: the same as its own mesh has it, without.
/// `done`: steps worked already. A stage that was begun gets none before it.
WayThere way_there(const Case& c, const Order& order, const std::vector<Step>& done, const StageVerdict& judged,
                   const StageVerdict& plain);

/// Whether the stages of a job with one more before the last hold both of them. `next`: index of the one that was put in;
/// `bar`: full use over that of this mesh. Not so where the job did not come to its end.
bool opens_the_way(const std::vector<StageVerdict>& stages, int next, double bar);

}  // namespace evenpull::inline sequencer
