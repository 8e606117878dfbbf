#include "sequencer/measured/after_readings.hpp"

#include "sequencer/replay/ceiling.hpp"
#include "sequencer/replay/loose_cloth.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

// A reading rarer than 1 in 1000 on a side, given all the others, contradicts them.
constexpr double contradicts_at = 0.001;
constexpr double rare_set = 0.02;
constexpr int sets_drawn = 20000;

const BenchCheck* check_of(const std::vector<std::vector<BenchCheck>>& checks, const Measured& r) {
  for (const BenchCheck& c : checks[static_cast<std::size_t>(r.stage)])
    if (c.side == r.side && c.bay == r.bay) return &c;
  return nullptr;
}

struct Used {
  std::vector<ReadingPlace> places;
  std::vector<double> sags;                  // logs over those expected
  std::vector<std::vector<std::size_t>> of;  // readings of each
};

Used usable(const OutcomeModel& m, const Case& c, int bays, const std::vector<std::vector<BenchCheck>>& checks,
            ReadingsTold& told) {
  Used out;
  for (std::size_t i = 0; i < told.readings.size(); ++i) {
    ReadingsTold::Of& r = told.readings[i];
    const BenchCheck* check = check_of(checks, r.reading);
    if (!check) continue;
    r.expected = expected_sag(*check) * r.reading.weight / check->weight;
    auto place = place_of(m, c.wanted, bays, r.reading.stage, *check);
    if (!place) continue;
    // The ruler is off by as much whatever the weight.
    place->own =
        std::hypot(place->own, c.wanted.sag_reading / *r.expected - c.wanted.sag_reading / expected_sag(*check));
    const double sag = std::log(r.reading.sag / *r.expected);
    const auto same = std::find_if(out.places.begin(), out.places.end(),
                                   [&](const ReadingPlace& p) { return p.pull == place->pull; });
    if (same == out.places.end()) {
      out.places.push_back(*place), out.sags.push_back(sag), out.of.push_back({i});
      continue;
    }
    const auto k = static_cast<std::size_t>(same - out.places.begin());
    const auto n = static_cast<double>(out.of[k].size());
    out.sags[k] = (out.sags[k] * n + sag) / (n + 1);
    out.of[k].push_back(i);
  }
  return out;
}

// Whether the readings of each stage as a whole are rarer than is plausible.
void look_at_sets(const GivenReadings& given, const std::vector<double>& sags, ReadingsTold& told) {
  const Eigen::MatrixXd sets = given.whole_sets(sets_drawn);
  const auto [least, most] = std::minmax_element(sags.begin(), sags.end());
  double tighter = 0, looser = 0;
  for (Eigen::Index s = 0; s < sets.rows(); ++s)
    tighter += sets.row(s).minCoeff() <= *least, looser += sets.row(s).maxCoeff() >= *most;
  told.tighter_than_any = tighter < rare_set * sets_drawn;
  told.looser_than_any = looser < rare_set * sets_drawn;
}

}  // namespace

AfterReadings after_readings(const OutcomeModel& before, const Case& c, int bays, const std::vector<Measured>& readings,
                             const std::vector<std::vector<BenchCheck>>& checks) {
  AfterReadings out{before, {}};
  for (const Measured& r : readings) out.told.readings.push_back({r, {}, false});
  if (!before.known()) return out;
  const Used used = usable(before, c, bays, checks, out.told);
  if (used.places.empty()) return out;
  out.told.used = true;
  const GivenReadings given(before, used.places);
  look_at_sets(given, used.sags, out.told);
  for (std::size_t k = 0; k < used.places.size() && used.places.size() > 1; ++k) {
    const double up_to = given.chance_of_up_to(k, used.sags);
    if (up_to < contradicts_at || up_to > 1 - contradicts_at)
      for (const std::size_t i : used.of[k]) out.told.readings[i].contradicts = true;
  }
  out.model = given.model_after(used.sags);
  const auto uses = static_cast<Eigen::Index>(before.uses.size());
  double sum = 0;
  for (const ReadingPlace& p : used.places) sum += out.model.mean[uses + p.pull] - before.mean[uses + p.pull];
  out.told.pull_times = std::exp(sum / static_cast<double>(used.places.size()));
  const JointDraws draws(out.model);
  for (int s = 0; s <= out.model.last; ++s) {
    const auto& damage = out.model.damage_shift[static_cast<std::size_t>(s)];
    const auto& shape = out.model.shape_shift[static_cast<std::size_t>(s)];
    out.told.damage.push_back(damage ? draws.damaged(s, *damage) : 1);
    out.told.shape.push_back(shape ? 1 - draws.distorted(s, *shape) : 0);
  }
  return out;
}

std::vector<StageVerdict> with_readings(std::vector<StageVerdict> judged, const OutcomeModel& before,
                                        const OutcomeModel& after) {
  for (std::size_t k = 0; k < before.uses.size(); ++k) {
    const double times = std::exp(after.mean[static_cast<Eigen::Index>(k)] - before.mean[static_cast<Eigen::Index>(k)]);
    for (StageVerdict& v : judged)
      for (LimitReading& l : v.limits)
        if (v.stage == before.uses[k].stage && l.limit == before.uses[k].limit) {
          // A buckling factor falls as its use rises.
          l.value *= l.limit == Limit::buckling ? 1 / times : times;
          l.use *= times, l.use_of_worse_joints *= times, l.use_plus_minus *= std::max(1.0, times);
        }
  }
  return judged;
}

std::vector<StageSafety> safety_with_readings(const std::vector<StageVerdict>& judged, const AfterReadings& after,
                                              const Case& c) {
  std::vector<StageSafety> out;
  bool holds = true;
  const ReadingsTold& told = after.told;
  const bool doubtful =
      told.tighter_than_any || told.looser_than_any ||
      std::any_of(told.readings.begin(), told.readings.end(), [](const ReadingsTold::Of& r) { return r.contradicts; });
  for (const StageVerdict& v : judged) {
    StageSafety s;
    s.stage = v.stage;
    holds = holds && !breaks_history(v, true);
    const auto k = static_cast<std::size_t>(v.stage);
    if (!holds || !asked_for(c, v.stage)) s.lacking.push_back(Lacking::as_stated);
    if (is_loose(v)) s.lacking.push_back(Lacking::tight);
    if (!v.limits.empty() && doubtful) s.lacking.push_back(Lacking::readings);
    if (holds && !v.limits.empty()) {
      if (k >= told.damage.size()) s.lacking.push_back(Lacking::damage_unknown);
      else {
        if (told.damage[k] > c.wanted.damage_chance) s.lacking.push_back(Lacking::damage);
        if (told.shape[k] < c.wanted.confidence) s.lacking.push_back(Lacking::shape);
      }
    }
    out.push_back(std::move(s));
  }
  return out;
}

}  // namespace evenpull::inline sequencer
