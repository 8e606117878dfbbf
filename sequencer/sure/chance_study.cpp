#include "sequencer/sure/chance_study.hpp"

#include "sequencer/numbers/regression.hpp"
#include "sequencer/numbers/sobol.hpp"
#include "sequencer/sure/outturn.hpp"
#include "sequencer/sure/scenario.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

constexpr int checked_in_full = 4;  // scenarios that go through both models
class Study {
 public:
  Study(const Case& c, std::vector<Step> steps, int last) : case_(c), steps_(std::move(steps)), last_(last) {
    std::erase_if(steps_, [&](const Step& s) { return s.stage > last_; });
  }

  Outturn run(const Case& drawn, const MeshOptions& mesh, const std::vector<double>& sigmas, unsigned number) const {
    ScenarioHeat heat(case_, drawn, case_.spreads.sole * sigmas[static_cast<int>(Unsure::sole)], number, steps_.size());
    ReplayOptions options;
    options.heat = [&](const Step& s, std::size_t i) { return heat.of(s, i); };
    return run_with(drawn, mesh, options, sigmas);
  }

  Outturn as_planned(const MeshOptions& mesh) const {
    return run_with(case_, mesh, {}, std::vector<double>(unsure_count, 0.0));
  }

 private:
  Outturn run_with(const Case& c, const MeshOptions& mesh, const ReplayOptions& options,
                   const std::vector<double>& sigmas) const {
    Outturn o;
    try {
      const Model m(c, mesh);
      o = outturn_of(replay(m, steps_, options).stages, last_);
    } catch (const NotConverged&) {
      o = outturn_of({}, last_);  // no number comes of it: it counts against every stage
      o.solved = false;
    } catch (const CaseError&) {
      o = outturn_of({}, last_);  // a frame drawn so soft that it bears nothing
    }
    o.sigmas = sigmas;
    return o;
  }

  const Case& case_;
  std::vector<Step> steps_;
  int last_;
};

std::vector<ZoneRisk> zone_risks(const Case& c, const Panel& reduced, const std::vector<Outturn>& runs, int stage) {
  const double slide = c.wanted.slide.value_or(c.limits.slip);
  std::vector<int> uneven(reduced.zones.size()), slides(reduced.zones.size());
  int counted = 0;
  for (const Outturn& o : runs) {
    if (o.fell[stage] || o.zone_pull[stage].size() != reduced.zones.size()) continue;
    ++counted;
    double sum = 0, area = 0;
    for (std::size_t z = 0; z < reduced.zones.size(); ++z)
      sum += reduced.zones[z].area * o.zone_pull[stage][z], area += reduced.zones[z].area;
    const double mean = sum / area;
    for (std::size_t z = 0; z < reduced.zones.size(); ++z) {
      uneven[z] += std::abs(o.zone_pull[stage][z] - mean) > c.wanted.uneven_share * mean;
      const int bay = reduced.zones[z].bay;
      double most = 0;
      for (int column = reduced.rib_columns[bay]; column <= reduced.rib_columns[bay + 1]; ++column)
        most = std::max(most, o.column_slip[stage][column]);
      slides[z] += most > slide;
    }
  }
  std::vector<ZoneRisk> out;
  for (std::size_t z = 0; z < reduced.zones.size(); ++z)
    out.push_back({chance_of(uneven[z], counted), chance_of(slides[z], counted)});
  return out;
}

}  // namespace

Chances study_chances(const Case& c, const std::vector<Step>& steps, const std::vector<StageVerdict>& judged,
                      const std::vector<StageVerdict>& full_stages, std::optional<int> ceiling,
                      const ParallelFor& parallel, const std::function<void(int, int)>& progress) {
  Chances out;
  const int n = c.wanted.scenarios;
  if (n <= 0 || judged.empty()) return out;
  out.scenarios = n;
  out.confidence = c.wanted.confidence;
  out.last_stage = std::min(ceiling ? *ceiling + 1 : 0, judged.back().stage);
  out.risk_stage = std::min(ceiling.value_or(0), out.last_stage);
  const Study study(c, steps, out.last_stage);
  const MeshOptions coarse{coarse_nodes};

  // One job runs the order as planned; the last ones, costly, are the full model's.
  const auto points = sobol_points(n, numbers_of(c));
  const int checked = std::min(checked_in_full, n);
  std::vector<Outturn> runs(n), checks(checked);
  Outturn planned;
  std::atomic<int> done{0};
  const int jobs = n + checked + 1;
  const auto draw = [&](int i) {
    std::vector<double> z;
    for (double u : points[i]) z.push_back(normal_quantile(u));
    return z;
  };
  const auto check_number = [&](int i) { return (2 * i + 1) * n / (2 * checked); };
  MeshOptions plan_mesh;
  plan_mesh.target_nodes = c.target_nodes;
  parallel(jobs, [&](int job) {
    if (job < checked) {
      const std::vector<double> z = draw(check_number(job));
      checks[job] = study.run(drawn_case(c, z), plan_mesh, z, static_cast<unsigned>(check_number(job)));
    } else if (job == checked) {
      planned = study.as_planned(coarse);
    } else {
      const int i = job - checked - 1;
      const std::vector<double> z = draw(i);
      runs[i] = study.run(drawn_case(c, z), coarse, z, static_cast<unsigned>(i));
    }
    if (progress) progress(++done, jobs);
  });

  if (!planned.solved) {
    out = {};
    out.unsolved = true;
    return out;
  }
  // What is printed comes from the finest mesh; the checks are run on the plan's own.
  const Outturn finest = outturn_of(judged, out.last_stage), own = outturn_of(full_stages, out.last_stage);
  const std::vector<UseByLimit> to_printed = ratios(finest, planned), to_own = ratios(own, planned);
  const ModelReading as_printed{to_printed, loose_by_itself(finest, planned), never_hold(judged, finest, planned)};
  const ModelReading as_own{to_own, loose_by_itself(own, planned)};
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
    a.ratio = to_own[out.risk_stage].count(*out.governing) ? to_own[out.risk_stage].at(*out.governing) : 1;
    double squares = 0;
    int compared = 0;
    for (int i = 0; i < checked; ++i) {
      const Outturn& reduced = runs[check_number(i)];
      ++a.scenarios;
      const ModelReading as_is{std::vector<UseByLimit>(to_own.size()), std::vector<std::vector<int>>(to_own.size())};
      a.decisions += holds(checks[i], as_is, out.risk_stage) == holds(reduced, as_own, out.risk_stage);
      if (checks[i].fell[out.risk_stage] || reduced.fell[out.risk_stage]) continue;
      const double full_use = corrected_use(checks[i], as_is.ratio, out.risk_stage, *out.governing);
      if (full_use <= 0) continue;
      const double off = corrected_use(reduced, to_own, out.risk_stage, *out.governing) / full_use - 1;
      squares += off * off;
      a.worst = std::max(a.worst, std::abs(off));
      ++compared;
    }
    if (compared > 0) a.rms = std::sqrt(squares / compared);
  }
  const Panel reduced = build_panel(c, coarse);
  out.nodes = static_cast<int>(reduced.nodes.size());
  out.zones = zone_risks(c, reduced, runs, out.risk_stage);
  return out;
}

}  // namespace evenpull::inline sequencer
