#include "app/command/machine_speed.hpp"

#include "sequencer/orders/families.hpp"
#include "sequencer/replay/replay.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>
#include <ctime>

namespace evenpull {
namespace {

constexpr int probe_nodes = 200;
constexpr std::size_t most_steps = 60;  // no wait on a panel of many bays
// Processor seconds for an iteration and a node of that mesh on the machine, and in the hour, of the estimate
// (sequencer/sure/run_estimate.cpp).
constexpr double usual = 3.0e-6;
// Beyond this the clock and not the machine is odd.
constexpr double oddest = 20;

}  // namespace

double times_as_slow(const Case& c) {
  const Model m(c, {probe_nodes});
  std::vector<Step> steps = steps_of(c, m.panel, order_families(m.panel).front());
  std::erase_if(steps, [](const Step& s) { return s.stage > 0 || s.pass > 1; });
  if (steps.size() > most_steps) steps.resize(most_steps);
  const std::clock_t begun = std::clock();
  try {
    const ReplayResult r = replay(m, steps, {});
    const double took = static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
    if (r.solve.iterations < 1 || took <= 0) return 1;
    return std::clamp(took / r.solve.iterations / r.solve.nodes / usual, 1 / oddest, oddest);
  } catch (const NotConverged&) {
    return 1;
  }
}

}  // namespace evenpull
