#include "sequencer/sure/run_estimate.hpp"

#include "sequencer/numbers/mesh_study.hpp"
#include "solver/geometry/panel.hpp"

#include <cmath>

namespace evenpull::inline sequencer {
namespace {

// Seconds of processors of which two share a core, both at work, measured on the demo cases (bench/RECORD.md): of the plan's own
// mesh and those behind its bars; of choice of passes, search and ranking; of the chances.
constexpr double a_step_and_node = 2.2e-5, ordering = 0.175, ordering_quick = 0.06, a_step_and_scenario = 3.6e-3;
// What each processor beyond the first takes off the gain of all, and seconds of drawing and writing.
constexpr double lost_by_each = 0.18, drawing = 5;

}  // namespace

double RunEstimate::seconds_on(int processors) const {
  return processor_seconds * (1 + lost_by_each * (processors - 1)) / processors;
}

RunEstimate estimate_run(const Case& c, Accuracy a) {
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
  double work =
      a_step_and_node * e.steps * e.nodes * runs + (a == Accuracy::quick ? ordering_quick : ordering) * e.steps;
  if (a != Accuracy::quick) work += a_step_and_scenario * e.steps * c.wanted.scenarios;
  e.processor_seconds = work + drawing;
  return e;
}

}  // namespace evenpull::inline sequencer
