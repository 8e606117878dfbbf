#include "sequencer/sure/scenario_runs.hpp"

#include "sequencer/numbers/sobol.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/sure/scenario.hpp"

#include <algorithm>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

// Zones of a run so many at a time. On the demo cases it costs a twelfth to a twentieth of the coarse mesh zone by zone; what it
// misses of the use there is 3 to 9 % rms (bench/RECORD.md).
constexpr int zones_at_once = 6;

// What checks zone by zone and error bars add to a scenario's slip (metal aileron: 1.30), before either is there.
constexpr double few_read_low = 1.3;

}  // namespace

ScenarioJob reduced_job() {
  ScenarioJob job{scenario_mesh()};
  job.at_once = zones_at_once;
  return job;
}

std::vector<ScenarioJob> scenarios(const Case& c, const ScenarioJob& like, int from, int to) {
  const auto points = sobol_points(to, numbers_of(c));
  std::vector<ScenarioJob> jobs;
  for (int i = from; i < to; ++i) {
    ScenarioJob job = like;
    for (const double u : points[static_cast<std::size_t>(i)]) job.sigmas.push_back(normal_quantile(u));
    job.number = static_cast<unsigned>(i);
    jobs.push_back(std::move(job));
  }
  return jobs;
}

ScenarioRuns::ScenarioRuns(const Case& c, std::vector<Step> steps, int last, const ParallelFor& parallel,
                           const KeptRuns* kept, const std::function<void(int, int)>& progress)
    : case_(c), steps_(std::move(steps)), last_(last), parallel_(parallel), kept_(kept), progress_(progress) {}

std::vector<Outturn> ScenarioRuns::run(const std::vector<ScenarioJob>& jobs) {
  std::vector<Outturn> out(jobs.size());
  all_ += static_cast<int>(jobs.size());
  parallel_(static_cast<int>(jobs.size()), [&](int i) {
    const ScenarioJob& job = jobs[static_cast<std::size_t>(i)];
    RunJob named;
    named.kind = RunJob::Kind::scenario;
    named.mesh = {job.mesh.target_nodes, job.mesh.fineness, job.mesh.zone_parts};
    named.steps = steps_;
    named.last_stage = last_;
    named.at_once = job.at_once;
    named.sigmas = job.sigmas;
    named.number = job.number;
    out[static_cast<std::size_t>(i)] =
        known_or_run<Outturn>(kept_, named, [&] { return run_scenario(case_, steps_, last_, job); });
    if (progress_) progress_(++done_, all_);
  });
  return out;
}

std::vector<Chance> shape_chances(const std::vector<Outturn>& runs, const ModelReading& reading, int last) {
  std::vector<Chance> out;
  for (int s = 0; s <= last; ++s) {
    const auto kept =
        std::count_if(runs.begin(), runs.end(), [&](const Outturn& o) { return keeps_shape(o, reading, s); });
    out.push_back(chance_of(static_cast<int>(kept), static_cast<int>(runs.size())));
  }
  return out;
}

Chance shape_of_order(const Case& c, const std::vector<Step>& steps, const std::vector<StageVerdict>& stages, int last,
                      int count, const ParallelFor& parallel, const KeptRuns* kept) {
  std::vector<Step> up_to_last = steps;
  std::erase_if(up_to_last, [&](const Step& s) { return s.stage > last; });
  const std::function<void(int, int)> silent;
  ScenarioRuns model(c, std::move(up_to_last), last, parallel, kept, silent);
  std::vector<ScenarioJob> jobs = {reduced_job()};
  const std::vector<ScenarioJob> drawn = scenarios(c, reduced_job(), 0, count);
  jobs.insert(jobs.end(), drawn.begin(), drawn.end());
  std::vector<Outturn> runs = model.run(jobs);
  const Outturn planned = std::move(runs.front());
  runs.erase(runs.begin());
  if (!planned.solved) return chance_of(0, count);
  ModelReading reading{corrections(outturn_of(stages, last), planned), {}, {}, {}};
  for (CorrectionByLimit& stage : reading.corrections)
    for (auto& [limit, correction] : stage) correction.by *= few_read_low;
  return shape_chances(runs, reading, last).back();
}

}  // namespace evenpull::inline sequencer
