#include "shop/attach_study.hpp"

#include "sequencer/orders/families.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/replay/replay.hpp"
#include "solver/equilibrium/attaching.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenpull {
namespace {

// So many zones of a run at one time, as scenarios are run (sequencer/sure/scenario_runs.cpp): what is compared was done
// alike.
constexpr int attach_at_once = 6;

constexpr double after_all = std::numeric_limits<double>::infinity();

bool names(const Attachment& a, int rib) { return std::find(a.ribs.begin(), a.ribs.end(), rib) != a.ribs.end(); }

// How the case fastens a rib, whenever that is.
Attachment manner_of(const Case& c, int rib) {
  for (const Attachment& a : c.attachments)
    if (a.how != AttachHow::left && names(a, rib)) return {a.how, {rib}, 0, a.spacing};
  if (c.blanket.inner_ribs == RibTie::glued) return {AttachHow::glued, {rib}, 0, 0};
  return {AttachHow::laced, {rib}, 0, usual_spacing};
}

std::vector<Attachment> all_at(const Case& c, double after) {
  std::vector<Attachment> out;
  for (int rib = 0; rib < static_cast<int>(c.ribs.size()); ++rib) {
    if (!can_be_fastened(c, rib)) continue;
    out.push_back(manner_of(c, rib));
    out.back().after = after;
  }
  return out;
}

// What holds a rib from which moment on, in a form that tells two schedules apart by what they do while it is ironed.
struct Effect {
  int rib;
  double after;
  bool along_line;
  double spacing;
  bool operator==(const Effect& o) const {
    return rib == o.rib && after == o.after && along_line == o.along_line && spacing == o.spacing;
  }
};

std::vector<Effect> effects_of(const Case& c) {
  std::vector<Effect> out;
  const double hottest = c.stages.back().temperature;
  for (int rib = 0; rib < static_cast<int>(c.ribs.size()); ++rib) {
    if (!can_be_fastened(c, rib)) continue;
    bool named = false;
    for (const Attachment& a : c.attachments) {
      if (!names(a, rib)) continue;
      named = true;
      if (a.how != AttachHow::left && a.after < hottest) out.push_back({rib, a.after, a.is_along_line(), a.spacing});
    }
    if (!named && c.blanket.inner_ribs == RibTie::glued) out.push_back({rib, 0, true, 0});
  }
  return out;
}

AttachStage told(const Model& m, const StageVerdict& v, const Covering* end) {
  AttachStage s;
  s.stage = v.stage;
  s.gave_way = v.buckled;
  s.limits = v.limits;
  s.worst_slip = v.worst_slip;
  s.difference = std::max(v.worst_difference_chord, v.worst_difference_span);
  if (v.buckled) return s;
  s.end = v.summary.end;
  for (int k = 0; k < 2; ++k) {
    s.pull_chord[k] = v.summary.mean_pull_chord[k];
    s.unevenness = std::max(s.unevenness, v.summary.unevenness[k].worst());
  }
  s.bay_pull = v.bay_pull;
  if (!end) return s;
  const ZonePulls pulls = read_off(m, *end).zones;
  for (const Hollow& h : hollows_of(m.the_case)) {
    const auto in_bay = [&](int bay) { return bay_mean(m.panel, pulls.chord, h.side, bay); };
    const double pull = 0.5 * (in_bay(h.rib - 1) + in_bay(h.rib));
    s.held_down.push_back({h, pull, line_load(h, pull)});
  }
  return s;
}

AttachRun run_one(const AttachChoice& choice) {
  AttachRun out{choice};
  const Model m(choice.the_case, plan_mesh(choice.the_case, Accuracy::quick));
  ReplayOptions options;
  options.at_once = attach_at_once;
  options.states = options.unsolved_ends_it = true;
  const ReplayResult r = replay(m, steps_of(m.the_case, m.panel, order_families(m.panel).front()), options);
  out.unsolved = r.unsolved.has_value();
  for (std::size_t i = 0; i < r.stages.size(); ++i)
    out.stages.push_back(told(m, r.stages[i], i < r.stage_end.size() ? &r.stage_end[i] : nullptr));
  return out;
}

}  // namespace

std::vector<AttachChoice> attach_choices(const Case& c) {
  std::vector<AttachChoice> out;
  if (all_at(c, 0).empty()) return out;
  const auto add = [&](AttachChoice::Kind kind, int stage, double after) {
    AttachChoice choice{kind, stage, false, c};
    choice.the_case.attachments = all_at(c, after);
    choice.stated = effects_of(choice.the_case) == effects_of(c);
    out.push_back(std::move(choice));
  };
  add(AttachChoice::Kind::before_ironing, -1, 0);
  for (int s = 0; s + 1 < static_cast<int>(c.stages.size()); ++s)
    add(AttachChoice::Kind::after_stage, s, c.stages[static_cast<std::size_t>(s)].temperature);
  add(AttachChoice::Kind::never, -1, after_all);
  if (std::none_of(out.begin(), out.end(), [](const AttachChoice& a) { return a.stated; }))
    out.insert(out.begin(), AttachChoice{AttachChoice::Kind::stated, -1, true, c});
  return out;
}

std::optional<LimitReading> worst_of_kind(const AttachStage& s, LimitKind kind) {
  std::optional<LimitReading> worst;
  for (const LimitReading& l : s.limits)
    if (kind_of(l.limit) == kind && !l.gave_way && (!worst || l.use > worst->use)) worst = l;
  return s.gave_way ? std::nullopt : worst;
}

double reads_otherwise(const AttachStage& s, const AttachStage& plain) {
  double most = 0;
  for (std::size_t k = 0; k < std::min(s.bay_pull.size(), plain.bay_pull.size()); ++k)
    if (plain.bay_pull[k] > 0) most = std::max(most, std::abs(s.bay_pull[k] / plain.bay_pull[k] - 1));
  return most;
}

std::vector<AttachRun> run_choices(const std::vector<AttachChoice>& choices, const ParallelFor& parallel,
                                   const std::function<void()>& done) {
  std::vector<AttachRun> out(choices.size());
  const auto run = [&](int i) {
    out[static_cast<std::size_t>(i)] = run_one(choices[static_cast<std::size_t>(i)]);
    if (done) done();
  };
  if (parallel) parallel(static_cast<int>(choices.size()), run);
  else one_by_one(static_cast<int>(choices.size()), run);
  return out;
}

}  // namespace evenpull
