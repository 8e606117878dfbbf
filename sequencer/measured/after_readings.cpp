#include "sequencer/measured/after_readings.hpp"

#include "sequencer/replay/ceiling.hpp"
#include "sequencer/replay/loose_cloth.hpp"
#include "sequencer/sure/shape_readings.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

// A reading rarer than 1 in 1000 on a side, given all the others, contradicts them.
constexpr double contradicts_at = 0.001;
constexpr double rare_set = 0.02;
constexpr int sets_drawn = 20000;

// Air that moves along, and what is shut in behind: of the pull, for all tones of a stage alike (judgement; tapping tells the pull
// to 15 to 25 %). The ear or a tuner's reading of one tone, of the pull.
constexpr double air_of_tone = 0.25, ear = 0.02;
// How a bow's use and the bow that is left at a stage's end part company, and where along the edge it is read (judgement).
constexpr double place_of_shape = 0.1;
constexpr double pull_of_tone = 2;  // frequency goes with the root of the pull

const BenchCheck* check_of(const std::vector<std::vector<BenchCheck>>& checks, const Measured& r) {
  for (const BenchCheck& c : checks[static_cast<std::size_t>(r.stage)])
    if (c.side == r.side && c.bay == r.bay) return &c;
  return nullptr;
}

// A reading beside what was expected of it: a number of the model, and its log over that expected.
struct Taken {
  ReadingPlace place;
  double read = 0;
};

class Usable {
 public:
  Usable(const OutcomeModel& m, const Case& c, int bays, const Expected& expected)
      : m_(m), c_(c), bays_(bays), expected_(expected) {}

  /// None: that bay or shape is not fit for it. What was expected of it goes into `r`.
  std::optional<Taken> take(ReadingsTold::Of& r) const {
    if (r.reading.shape) return shape(r);
    const BenchCheck* check = check_of(expected_.bays, r.reading);
    if (!check) return {};
    return r.reading.tone > 0 ? tone(r, *check) : sag(r, *check);
  }

 private:
  std::optional<Taken> sag(ReadingsTold::Of& r, const BenchCheck& check) const {
    r.expected = expected_sag(check) * r.reading.weight / check.weight;
    auto place = place_of(m_, c_.wanted, bays_, r.reading.stage, check);
    if (!place) return {};
    // The ruler is off by as much whatever the weight.
    place->own =
        std::hypot(place->own, c_.wanted.sag_reading / *r.expected - c_.wanted.sag_reading / expected_sag(check));
    return Taken{*place, std::log(r.reading.sag / *r.expected)};
  }

  std::optional<Taken> tone(ReadingsTold::Of& r, const BenchCheck& check) const {
    if (check.tap_low <= 0) return {};
    r.expected = std::sqrt(check.tap_low * check.tap_high);
    auto place = place_of(m_, c_.wanted, bays_, r.reading.stage, check);
    if (!place) return {};
    place->own = std::hypot(ear, place_of_reading);
    place->common = air_of_tone;
    place->times = pull_of_tone;
    return Taken{*place, std::log(r.reading.tone / *r.expected)};
  }

  std::optional<Taken> shape(ReadingsTold::Of& r) const {
    const double length = shape_length(c_, *r.reading.shape);
    for (std::size_t k = 0; k < m_.shapes.size(); ++k) {
      const OutcomeModel::Shape& shape = m_.shapes[k];
      if (shape.stage != r.reading.stage || shape.limit != *r.reading.shape) continue;
      for (const ShapeReading& e : expected_.shapes) {
        if (e.stage != shape.stage || e.limit != shape.limit || e.expected <= shape.least) continue;
        r.expected = e.expected * length;
        const double read = std::max(r.reading.value, shape.least * length);
        // Half of what a ruler tells is one sigma, of the smaller of both.
        const double ruler = shape.least * length / std::min(read, *r.expected);
        return Taken{{static_cast<int>(m_.pulls.size() + k), std::hypot(ruler, place_of_shape), 0, 1},
                     std::log(read / *r.expected)};
      }
    }
    return {};
  }

  const OutcomeModel& m_;
  const Case& c_;
  int bays_;
  const Expected& expected_;
};

struct Used {
  std::vector<ReadingPlace> places;
  std::vector<double> read;                  // logs over those expected
  std::vector<std::vector<std::size_t>> of;  // readings of each
};

Used usable(const Usable& known, ReadingsTold& told) {
  Used out;
  for (std::size_t i = 0; i < told.readings.size(); ++i) {
    const std::optional<Taken> taken = known.take(told.readings[i]);
    if (!taken) continue;
    const auto same = std::find_if(out.places.begin(), out.places.end(), [&](const ReadingPlace& p) {
      return p.pull == taken->place.pull && p.times == taken->place.times;
    });
    if (same == out.places.end()) {
      out.places.push_back(taken->place), out.read.push_back(taken->read), out.of.push_back({i});
      continue;
    }
    const auto k = static_cast<std::size_t>(same - out.places.begin());
    const auto n = static_cast<double>(out.of[k].size());
    out.read[k] = (out.read[k] * n + taken->read) / (n + 1);
    out.of[k].push_back(i);
  }
  return out;
}

// Whether the sags as a whole are rarer than is plausible.
void look_at_sets(const OutcomeModel& m, const Used& used, ReadingsTold& told) {
  std::vector<ReadingPlace> places;
  std::vector<double> sags;
  for (std::size_t k = 0; k < used.places.size(); ++k)
    if (used.places[k].times < 0) places.push_back(used.places[k]), sags.push_back(used.read[k]);
  if (places.empty()) return;
  const Eigen::MatrixXd sets = GivenReadings(m, places).whole_sets(sets_drawn);
  const auto [least, most] = std::minmax_element(sags.begin(), sags.end());
  double tighter = 0, looser = 0;
  for (Eigen::Index s = 0; s < sets.rows(); ++s)
    tighter += sets.row(s).minCoeff() <= *least, looser += sets.row(s).maxCoeff() >= *most;
  told.tighter_than_any = tighter < rare_set * sets_drawn;
  told.looser_than_any = looser < rare_set * sets_drawn;
}

}  // namespace

AfterReadings after_readings(const OutcomeModel& before, const Case& c, int bays, const std::vector<Measured>& readings,
                             const Expected& expected) {
  AfterReadings out{before, {}};
  for (const Measured& r : readings) out.told.readings.push_back({r, {}, false});
  if (!before.known()) return out;
  const Used used = usable(Usable(before, c, bays, expected), out.told);
  if (used.places.empty()) return out;
  out.told.used = true;
  const GivenReadings given(before, used.places);
  look_at_sets(before, used, out.told);
  for (std::size_t k = 0; k < used.places.size(); ++k) {
    // One sag alone is looked at as a set.
    if (used.places.size() == 1 && used.places[k].times < 0) break;
    const double up_to = given.chance_of_up_to(k, used.read);
    if (up_to < contradicts_at || up_to > 1 - contradicts_at)
      for (const std::size_t i : used.of[k]) out.told.readings[i].contradicts = true;
  }
  out.model = given.model_after(used.read);
  out.told.inputs = given.inputs(used.read);
  const auto uses = static_cast<Eigen::Index>(before.uses.size());
  double sum = 0;
  int bays_told = 0;
  const auto pulls = static_cast<Eigen::Index>(before.pulls.size());
  for (Eigen::Index k = uses; k < uses + pulls; ++k) {
    const auto stage = before.pulls[static_cast<std::size_t>(k - uses)].stage;
    const bool read = std::any_of(used.places.begin(), used.places.end(), [&](const ReadingPlace& p) {
      return p.pull < pulls ? p.pull == k - uses
                            : before.shapes[static_cast<std::size_t>(p.pull - pulls)].stage == stage;
    });
    if (read) sum += out.model.mean[k] - before.mean[k], ++bays_told;
  }
  out.told.pull_times = bays_told > 0 ? std::exp(sum / bays_told) : 1;
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
