// Many scenarios of one order on the reduced model, side by side.
#pragma once

#include "sequencer/numbers/parallel_for.hpp"
#include "sequencer/plan/chances.hpp"
#include "sequencer/sure/kept_runs.hpp"
#include "sequencer/sure/scenario_run.hpp"

#include <atomic>
#include <functional>
#include <vector>

namespace evenpull::inline sequencer {

/// The order as planned on the reduced model: a mesh of its own, zones of a run some at a time.
ScenarioJob reduced_job();

/// Scenarios `from` to `to` of the sequence, which begins alike whatever its length.
std::vector<ScenarioJob> scenarios(const Case& c, const ScenarioJob& like, int from, int to);

class ScenarioRuns {
 public:
  /// `steps`: no further than `last`. All but the steps are kept by reference.
  ScenarioRuns(const Case& c, std::vector<Step> steps, int last, const ParallelFor& parallel, const KeptRuns* kept,
               const std::function<void(int done, int all)>& progress);
  std::vector<Outturn> run(const std::vector<ScenarioJob>& jobs);

 private:
  const Case& case_;
  std::vector<Step> steps_;
  int last_;
  const ParallelFor& parallel_;
  const KeptRuns* kept_;
  const std::function<void(int, int)>& progress_;
  std::atomic<int> done_{0};
  int all_ = 0;
};

/// By stage up to `last`: in how many no limit of distortion is passed.
std::vector<Chance> shape_chances(const std::vector<Outturn>& runs, const ModelReading& reading, int last);

/// Of `count` scenarios of an order, the same for all orders, in how many it keeps its shape up to `last`; `stages`: the order as
/// planned on a finer mesh, by which the reduced model is read. Nothing where that found no equilibrium.
Chance shape_of_order(const Case& c, const std::vector<Step>& steps, const std::vector<StageVerdict>& stages, int last,
                      int count, const ParallelFor& parallel, const KeptRuns* kept);

}  // namespace evenpull::inline sequencer
