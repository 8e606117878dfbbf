#include "sequencer/sure/bench_checks.hpp"

#include "solver/sound/bay_tone.hpp"
#include "solver/sound/free_field.hpp"
#include "solver/sound/tight_bay.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace evenpull::inline sequencer {
namespace {

constexpr double gravity = 9.81;     // m/s^2
constexpr double air_density = 1.2;  // kg/m^3, 20 degC at sea level
// The air behind a closed panel's cloth: between half of both sides and more than both (most_air_sides); judgement.
constexpr double least_air_sides = 1;
constexpr double weights[] = {0.1, 0.2, 0.5, 1, 2};  // kg: what lies about in a workshop, weighed on kitchen scales
// Of the bay's short side: more would stretch the cloth, less cannot be read off a ruler.
constexpr double largest_sag_share = 0.015;
constexpr double largest_disc_share = 0.4;
// Beyond this ratio of the two pulls the closed form is off by more than 2 %.
constexpr double largest_pull_ratio = 4;
constexpr double error_of_form = 0.02;

struct Field {
  int bay = 0;
  Side side = Side::top;
  TightBay shape;
};

// Tight cloth amid a bay, large enough for the disc.
std::optional<Field> field_of(const Panel& p, const Snapshot& now, Side side, int bay) {
  const auto free = free_field(p, side, bay);
  if (!free) return {};
  Field f;
  f.side = side, f.bay = bay;
  f.shape.chordwise = free->chordwise, f.shape.spanwise = free->spanwise;
  double area = 0;
  for (const int i : free->quads) {
    if (now.state[i] < 2) return {};
    area += p.quads[i].area;
    f.shape.pull_chord += p.quads[i].area * now.pull_chord[i], f.shape.pull_span += p.quads[i].area * now.pull_span[i];
  }
  f.shape.pull_chord /= area, f.shape.pull_span /= area;
  const double less = std::min(f.shape.pull_chord, f.shape.pull_span),
               more = std::max(f.shape.pull_chord, f.shape.pull_span);
  if (less <= 0 || more > largest_pull_ratio * less) return {};
  if (check_disc > largest_disc_share * std::min(f.shape.chordwise, f.shape.spanwise)) return {};
  return f;
}

// Share by which the pull may be off; none where a run behind the bar gave way or was not solved.
std::optional<double> bar_of(const Plan& plan, int stage, Side side) {
  const int k = static_cast<int>(side);
  double bar = 0;
  for (const StageSummary& s : plan.stages) {
    if (s.stage != stage) continue;
    if (s.pull_chord_study[k].gave_way || s.pull_span_study[k].gave_way) return {};
    if (s.mean_pull_chord[k] > 0) bar = std::max(bar, s.pull_chord_study[k].plus_minus() / s.mean_pull_chord[k]);
    if (s.mean_pull_span[k] > 0) bar = std::max(bar, s.pull_span_study[k].plus_minus() / s.mean_pull_span[k]);
  }
  return std::min(bar, 0.5);
}

TightBay pulled(TightBay b, double times) {
  b.pull_chord *= times, b.pull_span *= times;
  return b;
}

}  // namespace

std::vector<BenchCheck> bench_checks(const Plan& plan, int stage) {
  if (stage >= static_cast<int>(plan.stage_end_snapshot.size())) return {};
  // Where the frame gave way the last moment computed is not the end of the stage.
  for (const StageSummary& s : plan.stages)
    if (s.stage == stage && !s.settled) return {};
  const std::size_t moment = plan.stage_end_snapshot[stage];
  if (moment >= plan.snapshots.size()) return {};
  const Snapshot& now = plan.snapshots[moment];
  const Panel& p = plan.panel;
  const Cloth& cloth = plan.the_case.cloth;
  std::vector<Field> fields;
  for (const Side side : {Side::top, Side::bottom})
    for (int bay = 0; bay < p.bays; ++bay)
      if (const auto f = field_of(p, now, side, bay)) fields.push_back(*f);

  double weight = weights[0];
  for (const double w : weights) {
    const bool fits = std::all_of(fields.begin(), fields.end(), [&](const Field& f) {
      return sag_under_disc(f.shape, w * gravity, check_disc / 2) <=
             largest_sag_share * std::min(f.shape.chordwise, f.shape.spanwise);
    });
    if (fits) weight = w;
  }
  std::vector<BenchCheck> out;
  for (const Field& f : fields) {
    const std::optional<double> off = bar_of(plan, stage, f.side);
    if (!off) continue;
    const double bar = *off + error_of_form, force = weight * gravity;
    const TightBay least = pulled(f.shape, 1 - bar), most = pulled(f.shape, 1 + bar);
    const double stiffness = std::max(cloth.stiffness.warp, cloth.stiffness.fill);
    BenchCheck c;
    c.side = f.side, c.bay = f.bay, c.weight = weight;
    c.sag_low = least_sag_under_disc(most, force, check_disc / 2, stiffness);
    c.sag_high = sag_under_disc(least, force, check_disc / 2);
    c.tap_low = tap_frequency(least, cloth.areal_mass, air_density, most_air_sides);
    c.tap_high = tap_frequency(most, cloth.areal_mass, air_density, least_air_sides);
    out.push_back(c);
  }
  return out;
}

std::vector<std::vector<BenchCheck>> bench_checks_by_stage(const Plan& plan) {
  std::vector<std::vector<BenchCheck>> out;
  for (int s = 0; s < static_cast<int>(plan.the_case.stages.size()); ++s) out.push_back(bench_checks(plan, s));
  return out;
}

}  // namespace evenpull::inline sequencer
