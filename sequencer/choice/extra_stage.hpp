// When a stage is not safe: is it the way there or the end that is too much, and would a stage in between open the way?
#pragma once

#include "sequencer/choice/choice.hpp"

#include <optional>
#include <string>

namespace evenpull {

/// The stage `next` of the chosen order, with error bars, and the same as its own mesh has it, without.
struct WayThere {
  bool fails_on_the_way = false;  ///< settled and released it would hold; what fails is passed through on the way
  bool gives_way = false;         ///< the frame buckles
  std::optional<double> extra_stage;  ///< K: ironed first at this setting, one full pass, `next` would hold (coarse mesh)
};

/// `done`: steps worked already. A stage that was begun gets none before it.
WayThere way_there(const Case& c, const Order& order, const std::vector<Step>& done, const StageVerdict& judged,
                   const StageVerdict& plain);

/// Whether the stages of a job with one more before the last hold both of them. `next`: index of the one that was put in;
/// `bar`: full use over that of this mesh. Not so where the job did not come to its end.
bool opens_the_way(const std::vector<StageVerdict>& stages, int next, double bar);

/// In words, for the reader.
std::string way_there_text(const Case& c, int next, const WayThere& w);

}  // namespace evenpull
