#include "sequencer/replay/replay.hpp"

#include "sequencer/replay/buckling_mode.hpp"
#include "sequencer/replay/full_passes.hpp"
#include "sequencer/replay/gauges.hpp"
#include "sequencer/replay/loose_cloth.hpp"
#include "sequencer/replay/snapshot.hpp"
#include "solver/equilibrium/attaching.hpp"

#include <algorithm>
#include <cmath>
#include <deque>

namespace evenpull::inline sequencer {
namespace {

// Follows one stage: what each step did, and the judgement at its end. A stage that is `done` is told and not judged.
class StageRun {
 public:
  StageRun(Ironing& ironing, int stage, bool done) : ironing_(ironing), judge_(ironing.model(), stage) {
    v_.stage = stage;
    v_.summary.done = done;
  }

  void after_done_step(const Readings& r) {
    slip_done_ = std::max(slip_done_, std::abs(r.slip.value));
    note_wires(r);
  }

  void after_step(const Readings& r) {
    judge_.take(r, Moment::on_the_way);
    v_.worst_difference_chord = std::max(v_.worst_difference_chord, std::abs(r.difference_chord.value));
    v_.worst_difference_span = std::max(v_.worst_difference_span, std::abs(r.difference_span.value));
    v_.worst_slip = std::max(v_.worst_slip, std::abs(r.slip.value));
    v_.worst_twist = std::max(v_.worst_twist, r.twist);
    v_.frame_turn = std::max(v_.frame_turn, r.frame_turn);
    note_wires(r);
  }

  // Settles, judges, releases, judges again. `s` keeps the settled state with the fixture on.
  Readings finish(Covering& s, const SolveName& label, bool released) {
    const StepReport settled = ironing_.settle(s, label.of(SolveName::Part::settling));
    certificates.push_back({v_.stage, Moment::stage_end, 0, settled.solve});
    if (settled.outcome == Outcome::buckled) {
      give_way(Moment::stage_end);
      return read_off(ironing_.model(), s);
    }
    const Readings r = read_off(ironing_.model(), s);
    summarise(r);
    by_place(r);
    note_wires(r);
    for (std::size_t i = 0; i < r.wire_pulls.size(); ++i) v_.summary.wires[i].end = r.wire_pulls[i];
    if (v_.summary.done) {
      after_done_step(r);
      tell_buckling(ironing_.buckling(s), Moment::stage_end);
      return r;
    }
    after_step(r);
    judge_.take(r, Moment::stage_end);
    note_end(r);
    v_.summary.end = end_of(r);
    take_buckling(s, Moment::stage_end);
    if (!released) return r;
    Covering free = s;
    const StepReport freed = ironing_.release(free, label.of(SolveName::Part::released));
    certificates.push_back({v_.stage, Moment::released, 0, freed.solve});
    if (freed.outcome == Outcome::buckled) {
      give_way(Moment::released);
      return r;
    }
    const Readings loose = read_off(ironing_.model(), free);
    judge_.take(loose, Moment::released);
    note_wires(loose);
    note_end(loose);
    v_.end_use =
        std::max({v_.end_use, loose.hinge_line_bow.use(), loose.whole_edge_bow.use(), loose.pocket_closing.use()});
    v_.summary.end = end_of(loose);
    add_zones(v_.summary.loose_zones, loose.loose_zones);
    take_buckling(free, Moment::released);
    return r;
  }

  void give_way(Moment when) {
    v_.buckled = v_.summary.gave_way = true;
    v_.summary.settled = when == Moment::released;
    judge_.take_giving_way(when);
    v_.summary.buckling_factor.reset();
    v_.summary.buckling_mode.reset();
  }

  StageVerdict verdict() {
    v_.limits = judge_.limits();
    v_.summary.stage = v_.stage;
    v_.summary.worst_slip = v_.summary.done ? slip_done_ : v_.worst_slip;
    if (v_.summary.buckling_factor && !std::isfinite(*v_.summary.buckling_factor)) v_.summary.buckling_factor = 1e6;
    return v_;
  }

  std::vector<Certificate> certificates;

 private:
  void note_wires(const Readings& r) {
    const std::vector<Wire>& wires = ironing_.model().wires;
    if (v_.summary.wires.empty())
      for (std::size_t i = 0; i < wires.size(); ++i)
        v_.summary.wires.push_back({wires[i].brace, r.wire_pulls[i], r.wire_pulls[i], 0});
    for (std::size_t i = 0; i < wires.size(); ++i) {
      WirePull& w = v_.summary.wires[i];
      w.least = std::min(w.least, r.wire_pulls[i]);
      w.most = std::max(w.most, r.wire_pulls[i]);
    }
  }

  static StageEnd end_of(const Readings& r) {
    return {r.edge_bow.value,       r.end_rib_bow.value,   r.twist, std::abs(r.slip.value), r.hinge_line_bow.value,
            r.whole_edge_bow.value, r.pocket_closing.value};
  }

  void note_end(const Readings& r) {
    v_.end_use = std::max(v_.end_use, tally_of(ironing_.model().the_case.limits, r).use);
  }

  void take_buckling(const Covering& s, Moment when) {
    const Buckling b = ironing_.buckling(s);
    judge_.take_buckling(b.factor, when);
    if (std::isfinite(b.factor))
      v_.end_use = std::max(v_.end_use, ironing_.model().the_case.limits.buckling_factor / b.factor);
    if (when == Moment::released && b.factor >= *v_.summary.buckling_factor) return;
    tell_buckling(b, when);
  }

  void tell_buckling(const Buckling& b, Moment when) {
    v_.summary.buckling_factor = b.factor;
    v_.summary.buckling_mode = buckling_mode(ironing_.model(), b, when);
  }

  void summarise(const Readings& r) {
    const Panel& p = ironing_.model().panel;
    StageSummary& s = v_.summary;
    for (int k = 0; k < 2; ++k) {
      const Side side = static_cast<Side>(k);
      s.mean_pull_warp[k] = side_mean(p, r.zones.warp, side);
      s.mean_pull_fill[k] = side_mean(p, r.zones.fill, side);
      s.mean_pull_chord[k] = side_mean(p, r.zones.chord, side);
      s.mean_pull_span[k] = side_mean(p, r.zones.span, side);
      s.unevenness[k] = r.unevenness_by_side[k];
    }
    s.loose_share = r.loose_share;
    s.loose_zones = r.loose_zones;
    s.twist = r.twist;
    v_.spread_along_span = r.spread_along_span;
    v_.lift = r.lift;
    s.thickness_loss = worst_loss(r.sag.bays);
    s.thickness_loss_by_bay = r.sag.bays;
  }

  void by_place(const Readings& r) {
    const Model& m = ironing_.model();
    v_.zone_pull.clear();
    for (std::size_t z = 0; z < m.panel.zones.size(); ++z)
      v_.zone_pull.push_back(0.5 * (r.zones.chord[z] + r.zones.span[z]));
    std::vector<double> area(2 * m.panel.bays), chord(area), span(area);
    for (std::size_t z = 0; z < m.panel.zones.size(); ++z) {
      const Zone& zone = m.panel.zones[z];
      const int k = gauge_of_bay(m.panel.bays, zone.side, zone.bay);
      area[k] += zone.area, chord[k] += zone.area * r.zones.chord[z], span[k] += zone.area * r.zones.span[z];
    }
    v_.bay_pull.clear();
    for (std::size_t k = 0; k < area.size(); ++k)
      v_.bay_pull.push_back(std::sqrt(std::max(0.0, chord[k]) * std::max(0.0, span[k])) / area[k]);
    v_.column_slip.assign(m.panel.columns, 0);
    std::size_t station = 0;  // slips come by wrapped point
    for (const SlidingPoint& p : m.unknowns.sliding)
      if (p.kind == SlidingPoint::Kind::wrapped) v_.column_slip[p.column] = std::abs(r.slips[station++]);
  }

  Ironing& ironing_;
  StageJudge judge_;
  StageVerdict v_;
  double slip_done_ = 0;  // m, worst of the steps done
};

SolveName step_name(const Case& c, const Panel& p, const Step& s) {
  return {p.zones[s.zone].label, c.stages[s.stage].temperature, s.pass};
}

bool all_done(const std::vector<Step>& steps, int stage) {
  return std::all_of(steps.begin(), steps.end(), [&](const Step& s) { return s.stage != stage || s.done; });
}

}  // namespace

// Steps from the i-th on that go together: of one run of a pass, alike, no more than `most`.
static std::size_t together(const std::vector<Step>& steps, std::size_t i, int most) {
  std::size_t n = 1;
  for (; n < static_cast<std::size_t>(most) && i + n < steps.size(); ++n) {
    const Step &a = steps[i], &b = steps[i + n];
    if (a.stage != b.stage || a.pass != b.pass || a.run != b.run || a.dose != b.dose || a.done != b.done) break;
  }
  return n;
}

static void run_stages(const Model& m, const std::vector<Step>& steps, const ReplayOptions& options, Ironing& ironing,
                       ReplayResult& out) {
  FullPasses full(m.panel.zones.size());
  Covering s = ironing.begin();
  if (options.snapshots) out.snapshots.push_back(take_snapshot(m, s, read_off(m, s), 0));
  std::size_t i = 0;
  bool standing = true;
  while (i < steps.size() && standing) {
    const int stage = steps[i].stage;
    attach_before(m, m.the_case.stages[stage].temperature, s);
    StageRun run(ironing, stage, all_done(steps, stage));
    SolveName label;
    while (i < steps.size() && steps[i].stage == stage && standing) {
      const std::size_t next = i + together(steps, i, options.at_once);
      label = step_name(m.the_case, m.panel, steps[i]);
      std::vector<HotZone> hot;
      std::deque<PassHeat> as_it_went;
      for (std::size_t k = i; k < next; ++k) {
        const Step& s_k = steps[k];
        const int worked_full = full.with(s_k);
        if (options.heat) as_it_went.push_back(options.heat(s_k, k));
        hot.push_back(
            {s_k.zone, options.heat ? &as_it_went.back() : &ironing.heat(stage, s_k.pass, s_k.dose, worked_full)});
      }
      const StepReport step = ironing.iron(s, hot, label);
      standing = step.outcome != Outcome::buckled;
      if (!standing) {
        run.give_way(Moment::on_the_way);
        break;
      }
      const Readings r = read_off(m, s);
      if (steps[i].done) run.after_done_step(r);
      else run.after_step(r);
      out.steps.insert(out.steps.end(), steps.begin() + static_cast<std::ptrdiff_t>(i),
                       steps.begin() + static_cast<std::ptrdiff_t>(next));
      run.certificates.push_back({stage, Moment::on_the_way, static_cast<int>(out.steps.size()), step.solve});
      out.moments.push_back(tally_of(m.the_case.limits, r));
      if (options.snapshots) out.snapshots.push_back(take_snapshot(m, s, r, static_cast<int>(out.steps.size())));
      if (options.progress) options.progress(static_cast<int>(next), static_cast<int>(steps.size()));
      i = next;
    }
    if (standing) {
      const Readings r = run.finish(s, label, options.released);
      if (options.snapshots)  // the settled state stands for the last step
        out.snapshots.back() = take_snapshot(m, s, r, static_cast<int>(out.steps.size()));
    }
    out.certificates.insert(out.certificates.end(), run.certificates.begin(), run.certificates.end());
    out.stages.push_back(run.verdict());
    standing = standing && !out.stages.back().buckled;
    out.stage_end_snapshot.push_back(static_cast<int>(out.snapshots.size()) - 1);
    if (options.states) out.stage_end.push_back(s);
  }
}

ReplayResult replay(const Model& m, const std::vector<Step>& steps, const ReplayOptions& options) {
  ReplayResult out;
  out.planned = steps;
  Ironing ironing(m, options.certified ? certified_options(m) : usual_options(m));
  try {
    run_stages(m, steps, options, ironing, out);
  } catch (const NotConverged& e) {
    if (!options.unsolved_ends_it) throw;
    out.unsolved = e;
  }
  out.solve.nodes = static_cast<int>(m.panel.nodes.size());
  out.solve.steps = static_cast<int>(out.steps.size());
  out.solve.iterations = ironing.iterations();
  out.solve.worst_residual = ironing.worst_residual();
  out.solve.worst_threshold_error = ironing.worst_threshold_error();
  out.solve.tension_error_bound = ironing.bound_settled();
  out.solve.tension_error_bound_on_the_way = ironing.bound_on_the_way();
  return out;
}

StageVerdict replay_stage(Ironing& ironing, Covering s, const std::vector<Step>& steps, double temperature) {
  StageRun run(ironing, steps.front().stage, false);
  const Model& m = ironing.model();
  attach_before(m, m.the_case.stages[steps.front().stage].temperature, s);
  FullPasses full(m.panel.zones.size());
  for (const Step& step : steps) {
    const SolveName label = step_name(m.the_case, m.panel, step);
    const PassHeat& heat = ironing.heat(step.stage, step.pass, step.dose, full.with(step), temperature);
    if (ironing.iron(s, step.zone, heat, label).outcome == Outcome::buckled) {
      run.give_way(Moment::on_the_way);
      return run.verdict();
    }
    run.after_step(read_off(m, s));
  }
  run.finish(s, "trial setting", true);
  return run.verdict();
}

}  // namespace evenpull::inline sequencer
