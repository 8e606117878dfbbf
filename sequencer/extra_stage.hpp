// When a stage is not safe: is it the way there or the end that is too much, and would a stage in between open the way?
#pragma once

#include "sequencer/choice.hpp"

#include <optional>
#include <string>

namespace evenpull {

/// The stage `next` of the chosen order, with error bars, and the same as its own mesh has it, without.
struct WayThere {
  bool fails_on_the_way = false;  ///< settled and released it would hold; what fails is passed through on the way
  bool gives_way = false;         ///< the frame buckles
  std::optional<double> extra_stage;  ///< K: ironed first at this setting, one full pass, `next` would hold (coarse mesh)
};

WayThere way_there(const Case& c, const Order& order, const StageVerdict& judged, const StageVerdict& plain);

/// In words, for the reader.
std::string way_there_text(const Case& c, int next, const WayThere& w);

}  // namespace evenpull
