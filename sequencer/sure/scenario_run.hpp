// One run of the order under one way the job may turn out: a plain value in, a plain value out.
#pragma once

#include "sequencer/plan/step.hpp"
#include "sequencer/sure/outturn.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// With the case and the order it follows all that is needed to run it anywhere.
struct ScenarioJob {
  MeshOptions mesh;
  std::vector<double> sigmas{};  ///< of each number that draws a scenario (numbers_of)
  int at_once = 1;               ///< ReplayOptions::at_once
  std::optional<unsigned>
      number{};  ///< of the scenario: where the iron stands in its swing; unset: all goes as planned
};

/// What it came to by the end of stage `last`; `steps` go no further. A run without equilibrium gives no use and counts
/// against every stage (Outturn::solved).
Outturn run_scenario(const Case& c, const std::vector<Step>& steps, int last, const ScenarioJob& job);

}  // namespace evenpull::inline sequencer
