#include "sequencer/sure/run_estimate.hpp"

#include "sequencer/numbers/mesh_study.hpp"
#include "solver/geometry/panel.hpp"

#include <cmath>

namespace evenpull::inline sequencer {

RunEstimate estimate_run(const Case& c, Accuracy a) {
  // Seconds per step and node on two ordinary cores; measured on the demo cases.
  constexpr double seconds_per_step_and_node = 5e-5;
  const Panel p = build_panel(c, plan_mesh(c, a));
  RunEstimate e;
  e.nodes = static_cast<int>(p.nodes.size());
  e.zones = static_cast<int>(p.zones.size());
  std::size_t passes = 0;
  for (const Stage& s : c.stages) passes += s.doses.size();
  e.steps = static_cast<int>(passes) * e.zones;
  // Runs in a plan, in runs of its own mesh: finalists and bounds, and those behind the error bars.
  double runs = a == Accuracy::quick ? 1 : 6.5;
  // A run's time grows with the power 1.5 of its nodes, which is the third of its fineness.
  for (const MeshOptions& w : study_meshes_of(c, a)) runs += w.zone_parts * std::pow(0.5 * w.fineness, 3);
  e.seconds = seconds_per_step_and_node * e.steps * (e.nodes * runs / 2 + 4 * coarse_nodes);
  // Scenarios run on the coarse mesh with the usual smoothing, two at a time.
  constexpr double seconds_per_scenario_step_and_node = 1.4e-5;
  if (a != Accuracy::quick)
    e.seconds += 0.5 * seconds_per_scenario_step_and_node * e.steps * coarse_nodes * c.wanted.scenarios;
  return e;
}

}  // namespace evenpull::inline sequencer
