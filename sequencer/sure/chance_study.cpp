#include "sequencer/sure/chance_study.hpp"

#include "sequencer/numbers/regression.hpp"
#include "sequencer/numbers/sobol.hpp"
#include "sequencer/sure/error_bars.hpp"
#include "sequencer/sure/scenario.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <iterator>
#include <map>

namespace evenpull {
namespace {

constexpr int checked_in_full = 4;       // scenarios that go through both models
constexpr double counts_as_over = 10;    // use of a frame that gave way, or of a run that found no equilibrium

using UseByLimit = std::map<Limit, double>;

// What a scenario gave, by stage: use of each limit, or that it did not stand.
struct Outturn {
  std::vector<double> sigmas;
  std::vector<UseByLimit> uses;        // by stage
  std::vector<std::vector<double>> zone_pull, column_slip;
  std::vector<bool> fell;              // gave way, or no equilibrium
  std::vector<std::vector<int>> loose;  // zones that have not come tight
  bool solved = true;                  // an equilibrium was found throughout
};

UseByLimit uses_of(const StageVerdict& v) {
  UseByLimit u;
  for (const LimitReading& l : v.limits) u[l.limit] = l.use;
  return u;
}

Outturn outturn_of(const std::vector<StageVerdict>& stages, int last) {
  Outturn o;
  o.uses.resize(last + 1), o.zone_pull.resize(last + 1), o.column_slip.resize(last + 1);
  o.fell.assign(last + 1, true);
  o.loose.resize(last + 1);
  for (const StageVerdict& v : stages) {
    if (v.stage > last) continue;
    o.uses[v.stage] = uses_of(v);
    o.zone_pull[v.stage] = v.zone_pull;
    o.column_slip[v.stage] = v.column_slip;
    o.fell[v.stage] = v.buckled;
    o.loose[v.stage] = v.summary.loose_zones;
  }
  return o;
}

class Study {
 public:
  Study(const Case& c, std::vector<Step> steps, int last) : case_(c), steps_(std::move(steps)), last_(last) {
    std::erase_if(steps_, [&](const Step& s) { return s.stage > last_; });
  }

  Outturn run(const Case& drawn, const MeshWish& mesh, const std::vector<double>& sigmas, unsigned number) const {
    ScenarioHeat heat(case_, drawn, case_.spreads.sole * sigmas[static_cast<int>(Unsure::sole)], number, steps_.size());
    ReplayWish wish;
    wish.heat = [&](const Step& s, std::size_t i) { return heat.of(s, i); };
    return run_with(drawn, mesh, wish, sigmas);
  }

  Outturn as_planned(const MeshWish& mesh) const {
    return run_with(case_, mesh, {}, std::vector<double>(unsure_count, 0.0));
  }

 private:
  Outturn run_with(const Case& c, const MeshWish& mesh, const ReplayWish& wish, const std::vector<double>& sigmas) const {
    Outturn o;
    try {
      const Model m(c, mesh);
      o = outturn_of(replay(m, steps_, wish).stages, last_);
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

// Full over reduced in the run as planned, for each limit and stage. Where the frame gave way in one of them a use is that
// of what came before, so it may raise what the scenarios read and never lower it.
std::vector<UseByLimit> ratios(const Outturn& full, const Outturn& reduced) {
  std::vector<UseByLimit> out(full.uses.size());
  for (std::size_t s = 0; s < full.uses.size(); ++s)
    for (const auto& [limit, use] : full.uses[s]) {
      const auto r = reduced.uses[s].find(limit);
      const double ratio = r != reduced.uses[s].end() && r->second > 0 ? use / r->second : 1;
      out[s][limit] = full.fell[s] || reduced.fell[s] ? std::max(1.0, ratio) : ratio;
    }
  return out;
}

double corrected(const Outturn& o, const std::vector<UseByLimit>& ratio, int stage, Limit limit) {
  if (o.fell[stage]) return counts_as_over;
  const auto use = o.uses[stage].find(limit), by = ratio[stage].find(limit);
  if (use == o.uses[stage].end()) return 0;
  return use->second * (by == ratio[stage].end() ? 1 : by->second);
}

// Zones that the reduced model leaves loose though the one it stands for does not: that is its own doing.
std::vector<std::vector<int>> loose_by_itself(const Outturn& full, const Outturn& reduced) {
  std::vector<std::vector<int>> out(full.loose.size());
  for (std::size_t s = 0; s < out.size(); ++s)
    std::set_difference(reduced.loose[s].begin(), reduced.loose[s].end(), full.loose[s].begin(), full.loose[s].end(),
                        std::back_inserter(out[s]));
  return out;
}

// How a model that stands for a finer one is read.
struct Reading {
  std::vector<UseByLimit> ratio;             // by stage
  std::vector<std::vector<int>> not_counted;  // zones whose looseness says nothing, by stage
  std::vector<bool> never{};                   // by stage: what stands against it this model does not see at all
};

// Stages that no scenario may hold: zones end loose that the reduced model finds tight, or a run behind the error bars gave
// way or was not solved.
std::vector<bool> never_hold(const std::vector<StageVerdict>& judged, const Outturn& full, const Outturn& reduced) {
  std::vector<bool> out(full.loose.size());
  bool known = true;
  for (std::size_t s = 0; s < out.size(); ++s) {
    for (const StageVerdict& v : judged)
      if (v.stage == static_cast<int>(s)) known = known && !gave_way_in_study(v);
    out[s] = !known || !std::includes(reduced.loose[s].begin(), reduced.loose[s].end(), full.loose[s].begin(), full.loose[s].end());
  }
  return out;
}

// The whole history holds: unevenness and loose cloth count at the stage itself only.
bool holds(const Outturn& o, const Reading& reading, int stage) {
  if (!reading.never.empty() && reading.never[stage]) return false;
  const std::vector<UseByLimit>& ratio = reading.ratio;
  if (!std::includes(reading.not_counted[stage].begin(), reading.not_counted[stage].end(), o.loose[stage].begin(),
                     o.loose[stage].end()))
    return false;
  for (int s = 0; s <= stage; ++s) {
    if (o.fell[s]) return false;
    for (const auto& [limit, use] : o.uses[s])
      if ((s == stage || limit != Limit::unevenness) && corrected(o, ratio, s, limit) > 1) return false;
  }
  return true;
}

std::vector<Limit> limits_of(const Outturn& o) {
  std::vector<Limit> limits;
  for (const UseByLimit& u : o.uses)
    for (const auto& [limit, use] : u)
      if (std::find(limits.begin(), limits.end(), limit) == limits.end()) limits.push_back(limit);
  return limits;
}

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

Chances study_chances(const Case& c, const std::vector<Step>& steps,
                      const std::vector<StageVerdict>& judged, const std::vector<StageVerdict>& full_stages,
                      std::optional<int> ceiling, const ParallelFor& parallel,
                      const std::function<void(int, int)>& progress) {
  Chances out;
  const int n = c.wanted.scenarios;
  if (n <= 0 || judged.empty()) return out;
  out.scenarios = n;
  out.confidence = c.wanted.confidence;
  out.last_stage = std::min(ceiling ? *ceiling + 1 : 0, judged.back().stage);
  out.risk_stage = std::min(ceiling.value_or(0), out.last_stage);
  const Study study(c, steps, out.last_stage);
  const MeshWish coarse{coarse_nodes};

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
  MeshWish plan_mesh;
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
  const Reading as_printed{to_printed, loose_by_itself(finest, planned), never_hold(judged, finest, planned)};
  const Reading as_own{to_own, loose_by_itself(own, planned)};
  for (int s = 0; s <= out.last_stage; ++s) {
    const auto held = std::count_if(runs.begin(), runs.end(), [&](const Outturn& o) { return holds(o, as_printed, s); });
    out.holds.push_back(chance_of(static_cast<int>(held), n));
    // What a stage asks for at its own end, a hotter one need not find: unevenness evens out.
    if (out.holds[s].share() >= out.confidence) out.ceiling = s;
    for (const Limit limit : limits_of(finest)) {
      if (!finest.uses[s].count(limit)) continue;
      const auto over = std::count_if(runs.begin(), runs.end(),
                                      [&](const Outturn& o) { return corrected(o, to_printed, s, limit) > 1; });
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
      if (!o.fell[out.risk_stage]) x.push_back(regressors(c, o.sigmas, c.stages[out.risk_stage].temperature)), y.push_back(corrected(o, to_printed, out.risk_stage, *out.governing));
    if (!y.empty())
      for (const ColumnWeight& w : weigh_columns(x, y, out.explained))
        out.weights.push_back({static_cast<Unsure>(w.column), spread_of(c.spreads, static_cast<Unsure>(w.column)), w.share, w.low,
                               w.high, w.sign});
    Agreement& a = out.agreement;
    a.ratio = to_own[out.risk_stage].count(*out.governing) ? to_own[out.risk_stage].at(*out.governing) : 1;
    double squares = 0;
    int compared = 0;
    for (int i = 0; i < checked; ++i) {
      const Outturn& reduced = runs[check_number(i)];
      ++a.scenarios;
      const Reading as_is{std::vector<UseByLimit>(to_own.size()), std::vector<std::vector<int>>(to_own.size())};
      a.decisions += holds(checks[i], as_is, out.risk_stage) == holds(reduced, as_own, out.risk_stage);
      if (checks[i].fell[out.risk_stage] || reduced.fell[out.risk_stage]) continue;
      const double full_use = corrected(checks[i], as_is.ratio, out.risk_stage, *out.governing);
      if (full_use <= 0) continue;
      const double off = corrected(reduced, to_own, out.risk_stage, *out.governing) / full_use - 1;
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

}  // namespace evenpull
