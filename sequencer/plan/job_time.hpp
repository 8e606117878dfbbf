// How long the job takes at the bench, by stage.
#pragma once

#include "sequencer/plan/stage_heat.hpp"
#include "sequencer/plan/step.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <vector>

namespace evenpull::inline sequencer {

struct StageTime {
  int stage = 0;
  double ironing = 0;  ///< s that the sole is on the cloth
  double turning = 0;  ///< s of turn-overs, with what has to be opened and closed
  double waiting = 0;  ///< s until the cloth is cold and was checked
  int turn_overs = 0;
  double all() const { return ironing + turning + waiting; }
};

/// Of what is still to be done up to and including `last`. `heat`: by stage; `steps` in the order of work. A sole covers its
/// own area, less what strokes overlap, in the contact time of the pass; over a nose that of the nose.
std::vector<StageTime> stage_times(const Case& c, const Panel& p, const std::vector<Step>& steps,
                                   const std::vector<StageHeat>& heat, int last);

}  // namespace evenpull::inline sequencer
