#include "sequencer/sure/scenario_run.hpp"

#include "sequencer/replay/replay.hpp"
#include "sequencer/sure/scenario.hpp"
#include "solver/statement/errors.hpp"

namespace evenpull::inline sequencer {
namespace {

Outturn run_with(const Case& c, const std::vector<Step>& steps, int last, const MeshOptions& mesh,
                 const ReplayOptions& options) {
  try {
    const Model m(c, mesh);
    return outturn_of(replay(m, steps, options).stages, last);
  } catch (const NotConverged&) {
    Outturn none = outturn_of({}, last);
    none.solved = false;
    return none;
  } catch (const CaseError&) {
    return outturn_of({}, last);  // a frame drawn so soft that it bears nothing
  }
}

}  // namespace

Outturn run_scenario(const Case& c, const std::vector<Step>& steps, int last, const ScenarioJob& job) {
  Outturn o;
  ReplayOptions options;
  options.at_once = job.at_once;
  if (job.number) {
    const Case drawn = drawn_case(c, job.sigmas);
    const double sole_off = c.spreads.sole * job.sigmas[static_cast<int>(Unsure::sole)];
    ScenarioHeat heat(c, drawn, sole_off, *job.number, steps.size());
    options.heat = [&](const Step& s, std::size_t i) { return heat.of(s, i); };
    o = run_with(drawn, steps, last, job.mesh, options);
    o.sigmas = job.sigmas;
  } else {
    o = run_with(c, steps, last, job.mesh, options);
    o.sigmas.assign(unsure_count, 0.0);
  }
  return o;
}

}  // namespace evenpull::inline sequencer
