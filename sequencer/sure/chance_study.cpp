#include "sequencer/sure/chance_study.hpp"

#include "sequencer/numbers/regression.hpp"
#include "sequencer/numbers/sobol.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/sure/outturn.hpp"
#include "sequencer/sure/scenario.hpp"
#include "sequencer/sure/scenario_run.hpp"
#include "sequencer/sure/zone_risk.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

// Scenarios that are run zone by zone on the half mesh too: what the reduced model misses shows there.
constexpr int checked_scenarios = 8;

// The reduced model: zones of a run so many at a time, on a mesh of its own. On the demo cases it costs a twelfth to a
// twentieth of the coarse mesh zone by zone; what it misses of the use there is 3 to 9 % rms (bench/RECORD.md).
constexpr int zones_at_once = 6;

// The checks, costly, come first; then the order as planned on both models, and every scenario on the reduced one.
struct Jobs {
  std::vector<ScenarioJob> all;
  std::size_t checked = 0;

  std::size_t planned_for_checks() const { return checked; }
  std::size_t planned() const { return checked + 1; }
  std::size_t scenarios() const { return checked + 2; }
};

std::size_t check_number(std::size_t i, int n, std::size_t checked) {
  return (2 * i + 1) * static_cast<std::size_t>(n) / (2 * checked);
}

MeshOptions check_mesh(const Case& c) {
  return half_mesh(c, Accuracy::normal).value_or(plan_mesh(c, Accuracy::normal));
}

Jobs jobs_of(const Case& c, int n) {
  const auto points = sobol_points(n, numbers_of(c));
  const auto scenario = [&](std::size_t i, const ScenarioJob& like) {
    ScenarioJob job = like;
    for (double u : points[i]) job.sigmas.push_back(normal_quantile(u));
    job.number = static_cast<unsigned>(i);
    return job;
  };
  ScenarioJob check{check_mesh(c)}, reduced{scenario_mesh()};
  reduced.at_once = zones_at_once;
  Jobs jobs;
  jobs.checked = static_cast<std::size_t>(std::min(checked_scenarios, n));
  for (std::size_t i = 0; i < jobs.checked; ++i) jobs.all.push_back(scenario(check_number(i, n, jobs.checked), check));
  jobs.all.push_back(check);
  jobs.all.push_back(reduced);
  for (std::size_t i = 0; i < static_cast<std::size_t>(n); ++i) jobs.all.push_back(scenario(i, reduced));
  return jobs;
}

// Pulls of a zone beside those of the panel hang on the mesh more than on the scenario: they are read with what the checks'
// mesh found beyond the reduced one in the run as planned.
std::vector<ZoneRisk> risks_of(const Case& c, const Panel& reduced, const std::vector<Outturn>& runs, int stage,
                               const ZoneCorrection& correction) {
  std::vector<ZoneEnds> ends;
  for (const Outturn& o : runs) ends.push_back(corrected(zone_ends(reduced, o, stage), correction));
  return zone_risks(static_cast<int>(reduced.zones.size()), ends, c.wanted.uneven_share,
                    c.wanted.slide.value_or(c.limits.slip));
}

}  // namespace

Chances study_chances(const Case& c, const std::vector<Step>& steps, const std::vector<StageVerdict>& judged,
                      const std::vector<StageVerdict>& full_stages, std::optional<int> ceiling,
                      const ParallelFor& parallel, const KeptRuns* kept,
                      const std::function<void(int, int)>& progress) {
  Chances out;
  const int n = c.wanted.scenarios;
  if (n <= 0 || judged.empty()) return out;
  out.scenarios = n;
  out.confidence = c.wanted.confidence;
  out.last_stage = std::min(ceiling ? *ceiling + 1 : 0, judged.back().stage);
  out.risk_stage = std::min(ceiling.value_or(0), out.last_stage);
  std::vector<Step> up_to_last = steps;
  std::erase_if(up_to_last, [&](const Step& s) { return s.stage > out.last_stage; });
  const Jobs jobs = jobs_of(c, n);
  const int count = static_cast<int>(jobs.all.size());
  std::vector<Outturn> outturns(jobs.all.size());
  std::atomic<int> done{0};
  parallel(count, [&](int i) {
    const ScenarioJob& job = jobs.all[i];
    RunJob named;
    named.kind = RunJob::Kind::scenario;
    named.mesh = {job.mesh.target_nodes, job.mesh.fineness, job.mesh.zone_parts};
    named.steps = up_to_last;
    named.last_stage = out.last_stage;
    named.at_once = job.at_once;
    named.sigmas = job.sigmas;
    named.number = job.number;
    outturns[i] = known_or_run<Outturn>(kept, named, [&] { return run_scenario(c, up_to_last, out.last_stage, job); });
    if (progress) progress(++done, count);
  });
  const auto first = outturns.begin() + static_cast<std::ptrdiff_t>(jobs.scenarios());
  const std::vector<Outturn> runs(first, outturns.end());
  const Outturn &planned = outturns[jobs.planned()], &for_checks = outturns[jobs.planned_for_checks()];

  if (!planned.solved || !for_checks.solved) {
    out = {};
    out.unsolved = true;
    return out;
  }
  // What is printed comes from the finest mesh; the checks have their own.
  const Outturn finest = outturn_of(judged, out.last_stage), own = outturn_of(full_stages, out.last_stage);
  const std::vector<CorrectionByLimit> to_checks = corrections(for_checks, planned);
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < jobs.checked; ++i) pairs.push_back({outturns[i], runs[check_number(i, n, jobs.checked)]});
  const std::vector<CorrectionByLimit> to_printed = raised(corrections(finest, planned), to_checks, pairs);
  const ModelReading as_printed{to_printed, loose_by_itself(finest, planned), never_hold(judged, finest, planned)};
  for (int s = 0; s <= out.last_stage; ++s) {
    const auto held =
        std::count_if(runs.begin(), runs.end(), [&](const Outturn& o) { return holds(o, as_printed, s); });
    out.holds.push_back(chance_of(static_cast<int>(held), n));
    // What a stage asks for at its own end, a hotter one need not find: unevenness evens out.
    if (out.holds[s].share() >= out.confidence) out.ceiling = s;
    for (const Limit limit : limits_of(finest)) {
      if (!finest.uses[s].count(limit)) continue;
      const auto over = std::count_if(runs.begin(), runs.end(),
                                      [&](const Outturn& o) { return corrected_use(o, to_printed, s, limit) > 1; });
      out.limits.push_back({limit, s, chance_of(static_cast<int>(over), n)});
    }
  }

  // What the governing use of the last safe stage hangs on.
  const StageVerdict& at = judged[static_cast<std::size_t>(out.risk_stage)];
  if (!at.limits.empty()) {
    out.governing = governing(at.limits).limit;
    out.governing_stage = out.risk_stage;
    std::vector<std::vector<double>> x;
    std::vector<double> y;
    for (const Outturn& o : runs)
      if (!o.fell[out.risk_stage])
        x.push_back(regressors(c, o.sigmas, c.stages[out.risk_stage].temperature)),
            y.push_back(corrected_use(o, to_printed, out.risk_stage, *out.governing));
    if (!y.empty())
      for (const ColumnWeight& w : weigh_columns(x, y, out.explained))
        out.weights.push_back({static_cast<Unsure>(w.column), spread_of(c.spreads, static_cast<Unsure>(w.column)),
                               w.share, w.low, w.high, w.sign});
    Agreement& a = out.agreement;
    const CorrectionByLimit to_own = corrections(own, planned)[out.risk_stage];
    a.ratio = to_own.count(*out.governing) ? to_own.at(*out.governing).by : 1;
    a.nodes = static_cast<int>(build_panel(c, check_mesh(c)).nodes.size());
    double squares = 0;
    int compared = 0;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      const Outturn &check = pairs[i].full, &reduced = pairs[i].reduced;
      std::vector<Pair> others;  // none is checked by what it went into
      for (std::size_t k = 0; k < pairs.size(); ++k)
        if (k != i) others.push_back(pairs[k]);
      const ModelReading as_check{raised(to_checks, to_checks, others), loose_by_itself(for_checks, planned)};
      ++a.scenarios;
      const ModelReading as_is{std::vector<CorrectionByLimit>(to_checks.size()),
                               std::vector<std::vector<int>>(to_checks.size())};
      a.decisions += holds(check, as_is, out.risk_stage) == holds(reduced, as_check, out.risk_stage);
      if (check.fell[out.risk_stage] || reduced.fell[out.risk_stage]) continue;
      const double full_use = corrected_use(check, as_is.corrections, out.risk_stage, *out.governing);
      if (full_use <= 0) continue;
      const double off = corrected_use(reduced, as_check.corrections, out.risk_stage, *out.governing) / full_use - 1;
      squares += off * off;
      a.worst = std::max(a.worst, std::abs(off));
      ++compared;
    }
    if (compared > 0) a.rms = std::sqrt(squares / compared);
  }
  const Panel reduced = build_panel(c, scenario_mesh());
  out.nodes = static_cast<int>(reduced.nodes.size());
  const ZoneCorrection correction =
      zone_correction(zone_ends(build_panel(c, check_mesh(c)), for_checks, out.risk_stage),
                      zone_ends(reduced, planned, out.risk_stage));
  out.zones = risks_of(c, reduced, runs, out.risk_stage, correction);
  return out;
}

}  // namespace evenpull::inline sequencer
