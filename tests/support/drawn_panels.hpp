// Panels drawn independently of a plan's scenarios and ironed on a finer mesh, read with a ruler's error, and held against
// what the plan promised of going on: the proof of its windows (docs/model.md, section 10).
#pragma once

#include "sequencer/measured/given_readings.hpp"
#include "sequencer/measured/windows.hpp"
#include "sequencer/numbers/parallel_for.hpp"
#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::tests {

/// A kind of panels: how they differ from what the plan takes them for.
struct PanelKind {
  std::string name;
  Case drawn_from;          ///< the case whose spreads draw them
  double sole_hotter = 0;   ///< K, every one of them
  double one_bay_does = 1;  ///< share of its doses that one bay gets, at the stage read
};
std::vector<PanelKind> panel_kinds(const Case& c);

/// How one of them went.
struct DrawnPanel {
  bool inside = false;                             ///< every listed bay
  double promised_shape = 0, promised_damage = 0;  ///< by the inference, given its readings
  std::vector<double> sags;                        ///< as read, logs over those expected
  bool solved = true;
  bool damaged = false, distorted = false;  ///< had the next stage been worked
};

/// `first`: number of the first of them; no scenario of a plan has it.
std::vector<DrawnPanel> iron_drawn_panels(const Plan& plan, const OutcomeModel& outcomes,
                                          const std::vector<Step>& planned, const StageWindow& window,
                                          const PanelKind& kind, unsigned first, int count, int nodes,
                                          const ParallelFor& parallel);

}  // namespace evenpull::tests
