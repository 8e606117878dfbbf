#include "sequencer/sure/chance_study.hpp"

#include "sequencer/numbers/regression.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/replay/loose_cloth.hpp"
#include "sequencer/sure/damage_study.hpp"
#include "sequencer/sure/error_bars.hpp"
#include "sequencer/sure/outturn.hpp"
#include "sequencer/sure/safety.hpp"
#include "sequencer/sure/scenario.hpp"
#include "sequencer/sure/scenario_runs.hpp"
#include "sequencer/sure/shape_readings.hpp"
#include "sequencer/sure/zone_risk.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

// Scenarios that are run zone by zone on the half mesh too: what the reduced model misses shows there.
constexpr int checked_scenarios = 8;

// Where the interval of keeping the shape straddles what is wanted so many times the scenarios are run, at most.
constexpr int most_times = 4;
constexpr unsigned first_edge_number =
    1'000'000;  // where the iron stands in the runs at the edge: apart from any scenario

std::size_t check_number(std::size_t i, int n, std::size_t checked) {
  return (2 * i + 1) * static_cast<std::size_t>(n) / (2 * checked);
}

MeshOptions check_mesh(const Case& c) {
  return half_mesh(c, Accuracy::normal).value_or(plan_mesh(c, Accuracy::normal));
}

// A bar of mesh and zones acts on a scenario in proportion.
std::vector<CorrectionByLimit> with_bars(std::vector<CorrectionByLimit> corrections,
                                         const std::vector<StageVerdict>& judged) {
  for (const StageVerdict& v : judged)
    for (const LimitReading& l : v.limits) {
      const auto s = static_cast<std::size_t>(v.stage);
      if (s >= corrections.size() || kind_of(l.limit) == LimitKind::finish || l.use <= 0 || l.study.gave_way) continue;
      corrections[s][l.limit].by *= 1 + l.use_plus_minus / l.use;
    }
  return corrections;
}

// Whether a run behind the error bars gave way or was not solved at a stage or before.
std::vector<bool> gave_way_by(const std::vector<StageVerdict>& judged, int last) {
  std::vector<bool> out(static_cast<std::size_t>(last) + 1, false);
  for (const StageVerdict& v : judged)
    if (v.stage <= last && gave_way_in_study(v))
      for (int s = v.stage; s <= last; ++s) out[static_cast<std::size_t>(s)] = true;
  return out;
}

// The hottest stage that nothing rules out but a chance that is not known well enough yet.
bool more_would_tell(const std::vector<StageVerdict>& judged, const Chances& k, int nominal) {
  for (int s = nominal; s >= 0; --s) {
    const auto v = std::find_if(judged.begin(), judged.end(), [&](const StageVerdict& j) { return j.stage == s; });
    if (v == judged.end() || is_loose(*v) || !damage_is_rare(k, s)) continue;
    if (shape_is_open(k, s)) return true;
    if (shape_is_sure(k, s)) return false;
  }
  return false;
}

// Runs drawn where the fit of all stages up to `last` puts the edge.
struct EdgeRuns {
  int last = 0;
  std::vector<Outturn> runs;
};

// Whether the stage after it came to its end.
bool next_is_whole(const std::vector<StageVerdict>& judged, int stage) {
  return std::any_of(judged.begin(), judged.end(),
                     [&](const StageVerdict& v) { return v.stage == stage + 1 && !v.buckled && !v.limits.empty(); });
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

// Where the shape is not sure enough: the limit of distortion that is passed most often.
std::optional<Limit> what_decides(const Chances& k, const std::vector<StageVerdict>& judged) {
  const std::vector<StageSafety> safety = stage_safety(judged, k);
  const auto lacks_shape = [](const StageSafety& s) {
    return std::find(s.lacking.begin(), s.lacking.end(), Lacking::shape) != s.lacking.end();
  };
  const auto first = std::find_if(safety.begin(), safety.end(), lacks_shape);
  if (first == safety.end()) return {};
  const LimitChance* worst = nullptr;
  for (const LimitChance& l : k.limits)
    if (l.stage == first->stage && kind_of(l.limit) == LimitKind::distortion &&
        (!worst || l.over.hits > worst->over.hits))
      worst = &l;
  return worst ? std::optional(worst->limit) : std::nullopt;
}

}  // namespace

ChanceStudy study_chances(const Case& c, const std::vector<Step>& steps, const std::vector<StageVerdict>& judged,
                          const std::vector<StageVerdict>& full_stages, std::optional<int> nominal,
                          const ParallelFor& parallel, const KeptRuns* kept,
                          const std::function<void(int, int)>& progress) {
  ChanceStudy study;
  Chances& out = study.chances;
  int n = c.wanted.scenarios;
  if (n <= 0 || judged.empty()) return study;
  out.confidence = c.wanted.confidence;
  out.damage_wanted = c.wanted.damage_chance;
  const int as_stated = std::min(nominal.value_or(0), judged.back().stage);
  out.last_stage = as_stated + (nominal && next_is_whole(judged, as_stated) ? 1 : 0);
  std::vector<Step> up_to_last = steps;
  std::erase_if(up_to_last, [&](const Step& s) { return s.stage > out.last_stage; });
  ScenarioRuns model(c, std::move(up_to_last), out.last_stage, parallel, kept, progress);

  // The checks, costly, come first; then the order as planned on both models, and every scenario on the reduced one.
  const ScenarioJob reduced_model = reduced_job(), check{check_mesh(c)};
  const auto checked = static_cast<std::size_t>(std::min(checked_scenarios, n));
  const std::vector<ScenarioJob> of_check = scenarios(c, check, 0, n), of_reduced = scenarios(c, reduced_model, 0, n);
  std::vector<ScenarioJob> jobs;
  for (std::size_t i = 0; i < checked; ++i) jobs.push_back(of_check[check_number(i, n, checked)]);
  jobs.push_back(check);
  jobs.push_back(reduced_model);
  jobs.insert(jobs.end(), of_reduced.begin(), of_reduced.end());
  const std::vector<Outturn> outturns = model.run(jobs);
  const Outturn &for_checks = outturns[checked], &planned = outturns[checked + 1];
  std::vector<Outturn> runs(outturns.begin() + static_cast<std::ptrdiff_t>(checked) + 2, outturns.end());
  if (!planned.solved || !for_checks.solved) {
    out = {};
    out.unsolved = true;
    return study;
  }
  // What is printed comes from the finest mesh; the checks have their own.
  const Outturn finest = outturn_of(judged, out.last_stage), own = outturn_of(full_stages, out.last_stage);
  const std::vector<CorrectionByLimit> to_checks = corrections(for_checks, planned);
  const std::vector<Outturn> first_runs = runs;
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < checked; ++i) pairs.push_back({outturns[i], first_runs[check_number(i, n, checked)]});
  const std::vector<CorrectionByLimit> to_printed =
      with_bars(raised(corrections(finest, planned), to_checks, pairs), judged);
  const ModelReading as_printed{to_printed, loose_by_itself(finest, planned), never_hold(judged, finest, planned),
                                gave_way_by(judged, out.last_stage)};

  const Panel panel = build_panel(c, scenario_mesh());
  unsigned edge_number = first_edge_number + 1;
  // What lies beyond the stages that hold as stated has an edge of its own: it says nothing of theirs.
  std::vector<EdgeRuns> edges;
  for (int last = as_stated; last <= out.last_stage; ++last) {
    EdgeRuns e{last, {}};
    std::vector<ScenarioJob> edge_jobs;
    for (std::vector<double>& sigmas : DamageStudy(c, panel, runs, to_printed, finest, last).at_the_edge()) {
      edge_jobs.push_back(reduced_model);
      edge_jobs.back().sigmas = std::move(sigmas);
      edge_jobs.back().number = edge_number++;
    }
    e.runs = model.run(edge_jobs);
    edges.push_back(std::move(e));
  }
  for (;;) {
    out.shape = shape_chances(runs, as_printed, out.last_stage);
    out.damage.clear();
    for (const EdgeRuns& e : edges) {
      EdgeCheck check_of_edge;
      std::vector<DamageChance> damage =
          DamageStudy(c, panel, runs, to_printed, finest, e.last).chances(e.runs, check_of_edge);
      if (e.last == as_stated) out.edge = check_of_edge, out.damage = std::move(damage);
      else out.damage.push_back(damage.back());
    }
    if (2 * n > most_times * c.wanted.scenarios || !more_would_tell(judged, out, as_stated)) break;
    const std::vector<Outturn> more = model.run(scenarios(c, reduced_model, n, 2 * n));
    runs.insert(runs.end(), more.begin(), more.end());
    n *= 2;
  }
  out.scenarios = n;
  out.risk_stage = hottest_safe(stage_safety(judged, out)).value_or(0);
  for (int s = 0; s <= out.last_stage; ++s) {
    const auto held =
        std::count_if(runs.begin(), runs.end(), [&](const Outturn& o) { return holds(o, as_printed, s); });
    out.holds.push_back(chance_of(static_cast<int>(held), n));
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
    out.governing = what_decides(out, judged).value_or(governing(at.limits).limit);
    out.governing_stage = out.risk_stage;
    std::vector<std::vector<double>> x;
    std::vector<double> y;
    for (const Outturn& o : runs)
      if (!o.fell[out.risk_stage])
        x.push_back(regressors(c, o.sigmas, c.stages[out.risk_stage].temperature)),
            y.push_back(corrected_use(o, to_printed, out.risk_stage, *out.governing));
    if (!y.empty())
      for (const ColumnWeight& w : weigh_columns(x, y, out.explained))
        out.weights.push_back({static_cast<Unsure>(w.column),
                               spread_of(c, static_cast<Unsure>(w.column), c.stages[out.risk_stage].temperature),
                               w.share, w.low, w.high, w.sign});
    Agreement& a = out.agreement;
    const CorrectionByLimit to_own = corrections(own, planned)[out.risk_stage];
    a.ratio = to_own.count(*out.governing) ? to_own.at(*out.governing).by : 1;
    a.nodes = static_cast<int>(build_panel(c, check_mesh(c)).nodes.size());
    double squares = 0;
    int compared = 0;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
      const Outturn &finer = pairs[i].full, &reduced = pairs[i].reduced;
      std::vector<Pair> others;  // none is checked by what it went into
      for (std::size_t k = 0; k < pairs.size(); ++k)
        if (k != i) others.push_back(pairs[k]);
      const ModelReading as_check{raised(to_checks, to_checks, others), loose_by_itself(for_checks, planned)};
      ++a.scenarios;
      const ModelReading as_is{std::vector<CorrectionByLimit>(to_checks.size()),
                               std::vector<std::vector<int>>(to_checks.size())};
      a.decisions += holds(finer, as_is, out.risk_stage) == holds(reduced, as_check, out.risk_stage);
      if (finer.fell[out.risk_stage] || reduced.fell[out.risk_stage]) continue;
      const double full_use = corrected_use(finer, as_is.corrections, out.risk_stage, *out.governing);
      if (full_use <= 0) continue;
      const double off = corrected_use(reduced, as_check.corrections, out.risk_stage, *out.governing) / full_use - 1;
      squares += off * off;
      a.worst = std::max(a.worst, std::abs(off));
      ++compared;
    }
    if (compared > 0) a.rms = std::sqrt(squares / compared);
  }
  const Panel& reduced = panel;
  out.nodes = static_cast<int>(reduced.nodes.size());
  const ZoneCorrection correction =
      zone_correction(zone_ends(build_panel(c, check_mesh(c)), for_checks, out.risk_stage),
                      zone_ends(reduced, planned, out.risk_stage));
  out.zones = risks_of(c, reduced, runs, out.risk_stage, correction);
  out.shapes = shape_readings(runs, planned, judged, as_printed, out.last_stage);
  study.outcomes = outcome_model({c, panel, runs, planned, to_printed, judged, out});
  return study;
}

}  // namespace evenpull::inline sequencer
