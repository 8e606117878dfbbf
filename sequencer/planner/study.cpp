#include "sequencer/planner/study.hpp"

#include "sequencer/plan/accuracy.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "sequencer/sure/error_bars.hpp"
#include "sequencer/sure/frame_range.hpp"
#include "sequencer/sure/kept_runs.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
namespace {

// Ribs free or glued make a difference that a mesh of twice the edge shows as well.
MeshOptions bound_mesh(const PlanJob& job) {
  const Accuracy a = job.options.accuracy;
  return half_mesh(job.the_case, a).value_or(plan_mesh(job.the_case, a));
}

// A step costs as its nodes; zones cut in two are twice as many steps.
double cost_of(const MeshOptions& m) {
  const double edge = static_cast<double>(m.fineness) / MeshOptions{}.fineness;
  return edge * edge * m.zone_parts;
}

std::vector<StudyJob> study_jobs(const PlanJob& job, const Panel& p) {
  std::vector<StudyJob> jobs;
  for (const MeshOptions& options : study_meshes_of(job.the_case, job.options.accuracy)) {
    RunId id{RunId::Kind::error_bars};
    id.fineness = options.fineness, id.zone_parts = options.zone_parts;
    jobs.push_back({id, options, cost_of(options)});
  }
  if (p.bays > 1)
    for (const RibTie ribs : {RibTie::free, RibTie::glued}) {
      RunId id{RunId::Kind::bound};
      id.inner_ribs = ribs;
      jobs.push_back({id, bound_mesh(job), cost_of(bound_mesh(job))});
    }
  if (frame_varies(job.the_case))
    for (const JointEnd end : {JointEnd::softest, JointEnd::stiffest}) {
      RunId id{RunId::Kind::joint_bound};
      id.joints = end;
      jobs.push_back({id, bound_mesh(job), cost_of(bound_mesh(job))});
    }
  return jobs;
}

Case case_of(const Case& c, const RunId& id) {
  Case out = c;
  if (id.kind == RunId::Kind::bound) out.blanket.inner_ribs = id.inner_ribs, out.attachments.clear();
  return id.kind == RunId::Kind::joint_bound ? with_joints_at(out, id.joints) : out;
}

StudyRun unsolved_study(const Case& c, const MeshOptions& options) {
  StudyRun r = as_study_run(build_panel(c, options), options, {});
  r.unsolved = true;
  return r;
}

// By how much the plan's mesh found more than that of the bounds in the same run; 1 where one of them gave way before.
struct MeshRatio {
  const std::vector<StageVerdict>& own;
  const StudyRun* same = nullptr;  // the order itself on the mesh of the bounds; none: the bounds are on the plan's own

  double of(int stage, const std::function<double(const StageVerdict&)>& read) const {
    if (!same) return 1;
    const StageVerdict *fine = find(own, stage), *coarse = find(same->stages, stage);
    if (!fine || !coarse || fine->limits.empty() || coarse->limits.empty()) return 1;
    const double a = read(*fine), b = read(*coarse);
    return a > 0 && b > 0 ? a / b : 1;
  }
  double of_use(int stage, Limit limit) const {
    return of(stage, [&](const StageVerdict& v) {
      for (const LimitReading& l : v.limits)
        if (l.limit == limit) return l.use;
      return 0.0;
    });
  }

 private:
  static const StageVerdict* find(const std::vector<StageVerdict>& stages, int stage) {
    for (const StageVerdict& v : stages)
      if (v.stage == stage) return v.buckled ? nullptr : &v;
    return nullptr;
  }
};

BoundRun bound(const RunId& id, const std::vector<StageVerdict>& stages, const MeshRatio& ratio) {
  BoundRun b;
  if (id.kind == RunId::Kind::joint_bound) b.joints = id.joints;
  else b.inner_ribs = id.inner_ribs;
  for (const StageVerdict& v : stages) {
    if (v.limits.empty()) {
      b.first_stage = v.stage + 1;
      continue;
    }
    std::vector<LimitReading> on_own = v.limits;
    for (LimitReading& l : on_own) {
      const double r = ratio.of_use(v.stage, l.limit);
      l.use *= r;
      if (l.limit == Limit::unevenness) b.unevenness_final = l.value * r;
    }
    b.worst_use.push_back(v.buckled ? std::nullopt : std::optional(governing(on_own).use));
    b.worst_slip =
        std::max(b.worst_slip, v.worst_slip * ratio.of(v.stage, [](const StageVerdict& s) { return s.worst_slip; }));
  }
  return b;
}

// A frame that gives way with its joints at an end of their range is past any limit there.
constexpr double past_any_limit = 1;

// Where joints are stated with a range the worse end of it counts, limit by limit.
void count_worse_joints(std::vector<StageVerdict>& stages, const StudyRun& at_end, const MeshRatio& ratio) {
  for (StageVerdict& v : stages) {
    const StageVerdict* there = nullptr;
    for (const StageVerdict& s : at_end.stages)
      if (s.stage == v.stage) there = &s;
    for (LimitReading& l : v.limits) {
      double use = l.use + past_any_limit;
      if (there && !there->buckled) {
        use = l.use;
        for (const LimitReading& o : there->limits)
          if (o.limit == l.limit) use = o.use * ratio.of_use(v.stage, l.limit);
      }
      l.use_of_worse_joints = std::max({l.use, l.use_of_worse_joints, use});
    }
  }
}

std::vector<StudyLevel> levels_of(const std::vector<StudyRun>& runs) {
  std::vector<StudyLevel> levels;
  for (const StudyRun& r : runs) levels.push_back({r.nodes, r.edge, r.zone_parts});
  std::sort(levels.begin(), levels.end(), [](const StudyLevel& a, const StudyLevel& b) {
    return a.zone_parts != b.zone_parts ? a.zone_parts < b.zone_parts : a.edge > b.edge;
  });
  return levels;
}

void note_where_it_ended(const StudyRun& r, Studied& out) {
  if (r.unsolved) out.unsolved_from = std::min(out.unsolved_from, r.stages.empty() ? 0 : r.stages.back().stage + 1);
  else if (!r.stages.empty() && r.stages.back().buckled)
    out.gave_way_from = std::min(out.gave_way_from, r.stages.back().stage);
}

}  // namespace

StudyRuns study_to_run(const PlanJob& job, const Panel& p, std::vector<Step> steps) {
  StudyRuns out;
  if (job.quick()) return out;
  out.steps = std::move(steps);
  out.jobs = study_jobs(job, p);
  out.runs.resize(out.jobs.size());
  return out;
}

void run_study(const PlanJob& job, const Panel& p, StudyRuns& study, int i, int told) {
  const StudyJob& j = study.jobs[i];
  TrialRuns trial(1, job.options.before_run);
  const Case c = case_of(job.the_case, j.id);
  RunJob named;
  named.kind = RunJob::Kind::study;
  named.mesh = {j.mesh.target_nodes, j.mesh.fineness, j.mesh.zone_parts};
  named.steps = study.steps;
  named.inner_ribs = c.blanket.inner_ribs;
  named.by_schedule = c.attachments.size() == job.the_case.attachments.size();
  if (j.id.kind == RunId::Kind::joint_bound) named.joints = j.id.joints;
  trial.run(0, j.id, [&] {
    study.runs[i] = known_or_run<StudyRun>(job.options.kept, named, [&] {
      try {
        return run_for_study(c, j.mesh, p, study.steps, job.meter.job(told));
      } catch (const CaseError&) {
        // A frame that does not stand with its joints so soft: past any limit.
        if (j.id.kind != RunId::Kind::joint_bound) throw;
        return unsolved_study(job.the_case, j.mesh);
      }
    });
  });
  job.meter.job(told)(1, 1);
  if (!trial.solved(0)) study.runs[i] = unsolved_study(job.the_case, j.mesh);
}

Studied study_order(const PlanJob& job, const Panel& p, const Tried& chosen, StudyRuns ready) {
  Studied out{chosen.result.stages};
  if (job.quick()) return out;
  // A stage in which the plan's own mesh gave way is run whole elsewhere: a part of it says nothing of its end.
  std::vector<Step> steps = chosen.result.planned;
  std::erase_if(steps, [&](const Step& s) { return s.stage > chosen.result.stages.back().stage; });
  if (ready.steps != steps) {
    ready = study_to_run(job, p, std::move(steps));
    std::vector<double> costs;
    for (const StudyJob& j : ready.jobs) costs.push_back(j.cost);
    job.meter.begin(PlanPart::error_bars, std::move(costs));
    job.options.parallel(static_cast<int>(ready.jobs.size()), [&](int i) { run_study(job, p, ready, i, i); });
  }
  const std::vector<StudyJob>& jobs = ready.jobs;
  std::vector<StudyRun>& runs = ready.runs;
  MeshRatio ratio{chosen.result.stages};
  const int bounds_on = bound_mesh(job).fineness;
  for (std::size_t i = 0; i < runs.size(); ++i)
    if (jobs[i].id.kind == RunId::Kind::error_bars && runs[i].zone_parts == 1 && runs[i].fineness == bounds_on)
      ratio.same = &runs[i];
  for (std::size_t i = 0; i < runs.size(); ++i)
    if (jobs[i].id.kind != RunId::Kind::error_bars && !runs[i].unsolved)
      out.bounds.push_back(bound(jobs[i].id, runs[i].stages, ratio));
  std::vector<StudyRun> levels, joint_ends;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (jobs[i].id.kind == RunId::Kind::error_bars) {
      note_where_it_ended(runs[i], out);
      levels.push_back(std::move(runs[i]));
      continue;
    }
    if (runs[i].unsolved) out.left_out.push_back(jobs[i].id);
    if (jobs[i].id.kind == RunId::Kind::joint_bound) joint_ends.push_back(runs[i]);
  }
  levels.push_back(as_study_run(p, plan_mesh(job.the_case, job.options.accuracy), chosen.result.stages));
  out.levels = levels_of(levels);
  out.stages = with_error_bars(chosen.result.stages, levels);
  if (range_counts(job.the_case))
    for (const StudyRun& r : joint_ends) count_worse_joints(out.stages, r, ratio);
  return out;
}

std::optional<double> find_setting(const PlanJob& job, const Model& full, const Tried& chosen,
                                   const std::vector<StageVerdict>& judged, std::optional<int> ceiling,
                                   std::vector<Step> steps, Dropped& dropped) {
  const int next = ceiling ? *ceiling + 1 : 0;
  if (next >= static_cast<int>(judged.size())) return {};
  std::erase_if(steps, [&](const Step& s) { return s.stage != next; });
  // Cloth that has met the hotter stage already cannot be worked at a setting below it.
  if (std::any_of(steps.begin(), steps.end(), [](const Step& s) { return s.done; })) return {};
  job.meter.begin(PlanPart::setting, 1);
  std::optional<double> found;
  one_run(job, {RunId::Kind::setting}, dropped, [&] {
    Ironing ironing(full);
    const Covering before = ceiling ? chosen.result.stage_end[*ceiling] : ironing.begin();
    found = setting_between(ironing, before, judged, chosen.result.stages, ceiling, steps);
  });
  return found;
}

}  // namespace evenpull::inline sequencer
