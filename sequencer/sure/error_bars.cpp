#include "sequencer/sure/error_bars.hpp"

#include "sequencer/orders/families.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/replay/loose_cloth.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

namespace evenpull::inline sequencer {
namespace {

constexpr double order_in_theory =
    2;  // of displacements, forces and pull with these elements (docs/model.md, section 9)

// What zones cut in two change on the plan's mesh is up to so many times what they change on one of twice the edge
// (bench/RECORD.md, Bars from the half mesh).
constexpr double zone_margin_of_half_mesh = 1.25;

// A use that is exceeded whatever the number: the bar of a stage that gave way.
constexpr double past_any_limit = 1;

using Reader = std::function<std::optional<double>(const StageVerdict&)>;

const StageVerdict* find_stage(const StudyRun& run, int stage) {
  for (const StageVerdict& v : run.stages)
    if (v.stage == stage) return v.buckled ? nullptr : &v;
  return nullptr;
}

const LimitReading* find_limit(const StageVerdict& v, Limit limit) {
  for (const LimitReading& l : v.limits)
    if (l.limit == limit) return &l;
  return nullptr;
}

class Study {
 public:
  explicit Study(const std::vector<StudyRun>& runs) {
    for (const StudyRun& r : runs) (r.zone_parts == 1 ? meshes_ : zones_).push_back(&r);
    std::sort(meshes_.begin(), meshes_.end(), [](auto* a, auto* b) { return a->edge > b->edge; });
    std::sort(zones_.begin(), zones_.end(), [](auto* a, auto* b) { return a->zone_parts < b->zone_parts; });
  }

  // The stage on the finest mesh; none if the frame gave way there.
  const StageVerdict* finest(int stage) const { return find_stage(*meshes_.back(), stage); }

  NumberStudy of(int stage, const Reader& read) const {
    NumberStudy s;
    const auto number = [&](const StudyRun& r) {
      const StageVerdict* v = find_stage(r, stage);
      return v ? read(*v) : std::nullopt;
    };
    for (const StudyRun* r : meshes_) {
      const auto value = number(*r);
      s.gave_way = s.gave_way || !value;
      if (value) s.mesh.push_back({r->edge, *value});
    }
    for (const StudyRun* r : zones_) {
      const auto value = number(*r), whole = number(same_mesh(*r));
      s.gave_way = s.gave_way || !value;
      if (!value || !whole) continue;
      s.zones.push_back({r->zone_parts, r->edge, *value, *value - *whole});
      // A mesh of twice the edge shows less of what the size of zones does.
      const double margin = r->fineness < MeshOptions{}.fineness ? zone_margin_of_half_mesh : 1;
      s.zone_plus_minus = std::max(s.zone_plus_minus, margin * std::abs(*value - *whole));
    }
    if (s.mesh.empty()) return s;
    s.extrapolated = s.mesh.back().value;
    if (s.mesh.size() < 2) return s;
    const MeshStudy m = study_meshes(s.mesh, order_in_theory);
    s.approach = m.approach;
    s.order = m.order;
    s.extrapolated = m.value;
    s.mesh_plus_minus = m.plus_minus;
    return s;
  }

 private:
  const StudyRun& same_mesh(const StudyRun& zones) const {
    for (const StudyRun* r : meshes_)
      if (r->fineness == zones.fineness) return *r;
    return *meshes_.back();
  }

  std::vector<const StudyRun*> meshes_, zones_;  // meshes from coarse to fine
};

void study_limit(const Study& study, LimitReading& l) {
  l.study = study.of(l.stage, [&](const StageVerdict& v) {
    const LimitReading* r = find_limit(v, l.limit);
    return r ? std::optional<double>(r->use) : std::nullopt;
  });
  const StageVerdict* finest = study.finest(l.stage);
  const LimitReading* r = finest ? find_limit(*finest, l.limit) : nullptr;
  if (r) {
    l.where = r->where, l.when = r->when;
    l.value = r->value, l.use = r->use;
  }
  l.use_plus_minus = l.study.plus_minus();
  if (l.study.gave_way) l.use_plus_minus = std::max({l.use_plus_minus, l.use, past_any_limit});
}

void study_summary(const Study& study, int stage, StageSummary& s) {
  for (int side = 0; side < 2; ++side) {
    s.pull_chord_study[side] = study.of(stage, [=](const StageVerdict& v) { return v.summary.mean_pull_chord[side]; });
    s.pull_span_study[side] = study.of(stage, [=](const StageVerdict& v) { return v.summary.mean_pull_span[side]; });
  }
  s.slip_study = study.of(stage, [](const StageVerdict& v) { return v.summary.worst_slip; });
  const StageVerdict* finest = study.finest(stage);
  if (!finest) return;
  const StageSummary& f = finest->summary;
  for (int side = 0; side < 2; ++side) {
    s.mean_pull_warp[side] = f.mean_pull_warp[side], s.mean_pull_fill[side] = f.mean_pull_fill[side];
    s.mean_pull_chord[side] = f.mean_pull_chord[side], s.mean_pull_span[side] = f.mean_pull_span[side];
    s.unevenness[side] = f.unevenness[side];
  }
  s.loose_share = f.loose_share;
  add_zones(s.loose_zones, f.loose_zones);  // loose on either mesh is loose; the zones of both are the same
  s.worst_slip = f.worst_slip;
  s.twist = f.twist;
  s.buckling_factor = f.buckling_factor;
}

}  // namespace

StudyRun as_study_run(const Panel& p, const MeshOptions& mesh, const std::vector<StageVerdict>& stages) {
  StudyRun r;
  r.fineness = mesh.fineness;
  r.zone_parts = mesh.zone_parts;
  r.nodes = static_cast<int>(p.nodes.size());
  r.edge = mean_edge(p);
  r.stages = stages;
  return r;
}

StudyRun run_for_study(const Case& c, MeshOptions mesh, const Panel& whole, const std::vector<Step>& steps,
                       const std::function<void(int, int)>& progress) {
  while (mesh.zone_parts > 1 && build_panel(c, mesh).strips == whole.strips) mesh.fineness *= 2;
  const Model m(c, mesh);
  ReplayOptions options;
  options.progress = progress;
  options.unsolved_ends_it = true;
  const ReplayResult r = replay(m, mesh.zone_parts > 1 ? split_steps(whole, m.panel, steps) : steps, options);
  StudyRun run = as_study_run(m.panel, mesh, r.stages);
  run.unsolved = r.unsolved.has_value();
  return run;
}

std::vector<StageVerdict> with_error_bars(std::vector<StageVerdict> stages, const std::vector<StudyRun>& runs) {
  const Study study(runs);
  for (StageVerdict& v : stages) {
    if (v.buckled) continue;
    for (LimitReading& l : v.limits) study_limit(study, l);
    study_summary(study, v.stage, v.summary);
  }
  return stages;
}

double printed_bar(double use, double plus_minus) {
  constexpr double hundred = 100;
  constexpr double rounding = 1e-9;  // 0.07 + 0.02 must not become 0.10
  const double shown = std::round(use * hundred), end = std::ceil((use + plus_minus) * hundred - rounding);
  return std::max(0.0, end - shown) / hundred;
}

bool gave_way_in_study(const StageVerdict& stage) {
  return std::any_of(stage.limits.begin(), stage.limits.end(), [](const LimitReading& l) { return l.study.gave_way; });
}

double mesh_change(const StageVerdict& stage) {
  const LimitReading& l = governing(stage.limits);
  const auto& mesh = l.study.mesh;
  if (mesh.size() < 2 || mesh[mesh.size() - 2].value <= 0) return 0;
  return mesh.back().value / mesh[mesh.size() - 2].value - 1;
}

double zone_change(const StageVerdict& stage) {
  const LimitReading& l = governing(stage.limits);
  return l.study.zones.empty() || l.use <= 0 ? 0 : l.study.zones.back().change / l.use;
}

}  // namespace evenpull::inline sequencer
