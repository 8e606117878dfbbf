#include "tests/support/drawn_panels.hpp"

#include "sequencer/numbers/normals.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/sure/damage_study.hpp"
#include "sequencer/sure/scenario.hpp"
#include "sequencer/sure/scenario_run.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::tests {
namespace {

constexpr double twenty_degrees = 20.0 / 1.8;  // K
// Bays under-done as the inference takes them to be (docs/model.md, section 10).
constexpr double panel_under_done = 0.03, bay_under_done = 0.15, bays_under_done = 0.1;

double lacking(double share) { return -std::log(1 - std::min(0.8, std::abs(share))); }

struct Read {
  std::vector<ReadingPlace> places;
  std::vector<int> gauges;
};

Read bays_of(const Plan& plan, const OutcomeModel& m, const StageWindow& w) {
  Read out;
  for (const BayWindow& b : w.bays)
    for (const BenchCheck& c : plan.bench_checks[static_cast<std::size_t>(w.stage)])
      if (c.side == b.side && c.bay == b.bay)
        if (const auto p = place_of(m, plan.the_case.wanted, plan.panel.bays, w.stage, c)) {
          out.places.push_back(*p);
          out.gauges.push_back(gauge_of_bay(plan.panel.bays, c.side, c.bay));
        }
  return out;
}

}  // namespace

std::vector<PanelKind> panel_kinds(const Case& c) {
  std::vector<PanelKind> out{{"as drawn", c},     {"iron 20 °F hot", c},   {"one bay does half", c},
                             {"stages apart", c}, {"warp unlike fill", c}, {"frame 20 % softer", c}};
  out[1].sole_hotter = twenty_degrees;
  out[2].one_bay_does = 0.5;
  out[3].drawn_from.spreads.pull_common = 0.10, out[3].drawn_from.spreads.pull_of_stage = 0.29;
  out[4].drawn_from.spreads.pull_of_yarn = 0.25;
  for (Material& m : out[5].drawn_from.materials) m.youngs_modulus *= 0.8, m.shear_modulus *= 0.8;
  return out;
}

std::vector<DrawnPanel> iron_drawn_panels(const Plan& plan, const OutcomeModel& m, const std::vector<Step>& planned,
                                          const StageWindow& w, const PanelKind& kind, unsigned first, int count,
                                          int nodes, const ParallelFor& parallel) {
  const Read read = bays_of(plan, m, w);
  std::vector<Step> steps = planned;
  std::erase_if(steps, [&](const Step& s) { return s.stage > w.next; });
  const MeshOptions mesh{nodes};
  const Outturn as_planned = run_scenario(plan.the_case, steps, w.next, ScenarioJob{mesh});
  const GivenReadings given(m, read.places);
  const auto stage = static_cast<std::size_t>(w.stage);

  std::vector<DrawnPanel> out(static_cast<std::size_t>(count));
  parallel(count, [&](int i) {
    Normals normal(first + static_cast<unsigned>(i));
    ScenarioJob job{mesh};
    job.number = first + static_cast<unsigned>(i);
    job.sigmas = normal.row(numbers_of(plan.the_case));
    if (kind.sole_hotter > 0)
      job.sigmas[static_cast<std::size_t>(Unsure::sole)] = kind.sole_hotter / plan.the_case.spreads.sole;
    std::vector<Step> worked = steps;
    if (kind.one_bay_does < 1) {
      const int bay = w.bays[normal.below(w.bays.size())].bay;
      for (Step& s : worked)
        if (s.stage == w.stage && plan.panel.zones[static_cast<std::size_t>(s.zone)].bay == bay)
          s.dose *= kind.one_bay_does;
    }
    const Outturn o = run_scenario(kind.drawn_from, worked, w.next, job);
    DrawnPanel& d = out[static_cast<std::size_t>(i)];
    d.solved = o.solved;
    const double strength = normal();  // in sigmas; the demo frames are of one material
    for (const OutcomeModel::Use& u : m.uses) {
      if (u.stage > w.next) continue;
      const auto s = static_cast<std::size_t>(u.stage);
      const bool damage = kind_of(u.limit) == LimitKind::damage;
      bool over = o.fell[s];
      if (!over) {
        const double fine = as_planned.uses[s].at(u.limit);
        const double use = (fine > 0 ? u.stated / fine : 1) * o.uses[s].at(u.limit) * u.share;
        over = use * (damage ? std::exp(u.strength.scatter * strength) : 1) > 1;
      }
      (damage ? d.damaged : d.distorted) |= over;
    }
    // A panel that gave way before its readings goes no further.
    if (!o.solved || o.fell[stage]) return;
    const double common = normal(), panel = kind.one_bay_does < 1 ? 0 : lacking(panel_under_done * normal());
    std::vector<double> sags;
    d.inside = true;
    for (std::size_t k = 0; k < read.places.size(); ++k) {
      const auto g = static_cast<std::size_t>(read.gauges[k]);
      double sag = -std::log(o.bay_pull[stage][g] / as_planned.bay_pull[stage][g]);
      sag += read.places[k].common * common + read.places[k].own * normal() + panel;
      const bool short_bay = normal.uniform() < bays_under_done;
      const double lacks = lacking(bay_under_done * normal());
      if (short_bay && kind.one_bay_does == 1) sag += lacks;
      sags.push_back(sag);
      const double metres = w.bays[k].expected * std::exp(sag);
      d.inside = d.inside && metres >= w.bays[k].least && metres <= w.bays[k].most;
    }
    d.sags = sags;
    const Given g = given.at(sags);
    d.promised_shape = given.shape(g, w.next), d.promised_damage = given.damage(g, w.next);
  });
  return out;
}

}  // namespace evenpull::tests
