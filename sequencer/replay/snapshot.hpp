// A covering as the drawings need it.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "solver/readings/readings.hpp"

namespace evenpull::inline sequencer {

Snapshot take_snapshot(const Model& m, const Covering& s, const Readings& r, int step);

}  // namespace evenpull::inline sequencer
