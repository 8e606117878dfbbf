#include "sequencer/measured/windows.hpp"

#include "sequencer/replay/replay.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenpull::inline sequencer {
namespace {

// What a reading is off by, one sigma in the logarithm (judgement): weight, lid and its place, for all readings of a stage alike.
constexpr double common_of_reading = 0.03;
// The band of a check (mesh, closed form, stretch) is taken for two sigmas to each side.
constexpr double sigmas_in_band = 4;
// Sets of readings rarer than 2 in 100 on a side: something is not as stated.
constexpr double rare = 0.02;
constexpr int sets = 20000;
constexpr int points = 16, halvings = 6;  // a window is looked through at so many, then its ends are narrowed down
constexpr double least_width = 0.1;       // of its logarithm: what two readings of one bay may differ by
constexpr double grain = 0.1e-3;          // m: windows are narrowed to it

double quantile(std::vector<double> v, double share) {
  const auto at = v.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(v.size() - 1));
  std::nth_element(v.begin(), at, v.end());
  return *at;
}

struct Ends {
  double least = 0, most = 0;  // logs of sag over expected
};

// Bays read together: all at one sag over that expected, or one by itself.
class Together {
 public:
  Together(const OutcomeModel& m, const Wanted& w, std::vector<ReadingPlace> places, int next)
      : wanted_(w), next_(next), count_(places.size()), given_(m, std::move(places)) {}

  /// The widest part of `within` in which every reading lets the next stage be worked.
  std::optional<Ends> part_of(const Ends& within) const {
    const auto at = [&](int i) { return within.least + (within.most - within.least) * i / points; };
    std::vector<bool> is(points + 1);
    for (int i = 0; i <= points; ++i) is[static_cast<std::size_t>(i)] = holds(at(i));
    int first = -1, last = -2;
    for (int i = 0, from = -1; i <= points; ++i) {
      if (!is[static_cast<std::size_t>(i)]) {
        from = -1;
        continue;
      }
      if (from < 0) from = i;
      if (i - from > last - first) first = from, last = i;
    }
    if (first < 0) return {};
    Ends e{at(first), at(last)};
    if (first > 0) e.least = edge(at(first - 1), e.least);
    if (last < points) e.most = edge(at(last + 1), e.most);
    return e;
  }
  double damage(double sag) const { return given_.damage(at(sag), next_); }
  double shape(double sag) const { return given_.shape(at(sag), next_); }
  Eigen::MatrixXd whole_sets() const { return given_.whole_sets(sets); }

 private:
  Given at(double sag) const { return given_.at(std::vector<double>(count_, sag)); }
  // Where holding begins, on the side of `inside`.
  double edge(double outside, double inside) const {
    for (int i = 0; i < halvings; ++i) (holds(0.5 * (outside + inside)) ? inside : outside) = 0.5 * (outside + inside);
    return inside;
  }
  bool holds(double sag) const {
    return given_.stands_against(at(sag), next_, wanted_.damage_chance, wanted_.confidence) == NotYet::nothing;
  }

  const Wanted& wanted_;
  int next_;
  std::size_t count_;
  GivenReadings given_;
};

struct Found {
  Ends ends;
  double damage = 0, shape = 1, inside = 0;
};

// One after the other: each keeps many draws.
std::optional<Found> find(const OutcomeModel& m, const Wanted& w, const std::vector<ReadingPlace>& places, int next) {
  const auto each = [&](const auto& look) {
    look(Together(m, w, places, next));
    if (places.size() > 1)
      for (const ReadingPlace& p : places) look(Together(m, w, {p}, next));
  };
  const Eigen::MatrixXd drawn = Together(m, w, places, next).whole_sets();
  std::vector<double> tightest, loosest;
  for (Eigen::Index s = 0; s < drawn.rows(); ++s)
    tightest.push_back(drawn.row(s).minCoeff()), loosest.push_back(drawn.row(s).maxCoeff());
  std::optional<Ends> ends = Ends{quantile(tightest, rare), quantile(loosest, 1 - rare)};
  each([&](const Together& t) {
    if (ends) ends = t.part_of(*ends);
  });
  if (!ends || ends->most - ends->least < least_width) return {};
  Found out{*ends};
  each([&](const Together& t) {
    for (const double sag : {ends->least, ends->most})
      out.damage = std::max(out.damage, t.damage(sag)), out.shape = std::min(out.shape, t.shape(sag));
  });
  for (std::size_t s = 0; s < tightest.size(); ++s)
    out.inside += tightest[s] >= ends->least && loosest[s] <= ends->most;
  out.inside /= static_cast<double>(tightest.size());
  return out;
}

// Of each side the first, the last and the one amid: more readings are more work, and the chance that one of them is off by
// much grows with them.
std::vector<BenchCheck> bays_to_read(const std::vector<BenchCheck>& checks) {
  std::vector<BenchCheck> out;
  for (const Side side : {Side::top, Side::bottom}) {
    std::vector<BenchCheck> of;
    for (const BenchCheck& c : checks)
      if (c.side == side) of.push_back(c);
    if (of.size() > 3) of = {of.front(), of[(of.size() - 1) / 2], of.back()};
    out.insert(out.end(), of.begin(), of.end());
  }
  return out;
}

}  // namespace

bool asked_for(const Case& c, int stage) {
  constexpr double same_stage = 0.5;  // K
  return !c.approved_last_stage ||
         c.stages[static_cast<std::size_t>(stage)].temperature <= *c.approved_last_stage + same_stage;
}

double expected_sag(const BenchCheck& c) { return std::sqrt(c.sag_low * c.sag_high); }

std::optional<ReadingPlace> place_of(const OutcomeModel& m, const Wanted& wanted, int bays, int stage,
                                     const BenchCheck& c) {
  const int gauge = gauge_of_bay(bays, c.side, c.bay);
  for (std::size_t k = 0; k < m.pulls.size(); ++k)
    if (m.pulls[k].stage == stage && m.pulls[k].gauge == gauge)
      return ReadingPlace{static_cast<int>(k), std::hypot(wanted.sag_reading / expected_sag(c), place_of_reading),
                          std::hypot(std::log(c.sag_high / c.sag_low) / sigmas_in_band, common_of_reading)};
  return {};
}

std::vector<StageWindow> find_windows(const OutcomeModel& m, const Case& c, int bays, std::optional<int> safe,
                                      const std::vector<std::vector<BenchCheck>>& checks) {
  std::vector<StageWindow> out;
  if (!m.known() || !safe) return out;
  for (int next = 1; next <= std::min(m.last, *safe + 1); ++next) {
    StageWindow w;
    w.stage = next - 1, w.next = next, w.needed = next > *safe;
    if (w.needed && !asked_for(c, next)) break;
    std::vector<ReadingPlace> places;
    std::vector<BenchCheck> read;
    for (const BenchCheck& check : bays_to_read(checks[static_cast<std::size_t>(w.stage)]))
      if (const auto p = place_of(m, c.wanted, bays, w.stage, check)) places.push_back(*p), read.push_back(check);
    if (!places.empty() && m.can_be_last[static_cast<std::size_t>(next)]) {
      const auto found = find(m, c.wanted, places, next);
      // A stage that is safe without any reading is not stopped by the very reading that is expected.
      if (found && (w.needed || (found->ends.least <= 0 && found->ends.most >= 0))) {
        w.damage = found->damage, w.shape = found->shape, w.inside = found->inside;
        w.weight = read.front().weight;
        for (const BenchCheck& check : read) {
          const double expected = expected_sag(check);
          w.bays.push_back({check.side, check.bay, expected,
                            grain * std::ceil(expected * std::exp(found->ends.least) / grain),
                            grain * std::floor(expected * std::exp(found->ends.most) / grain)});
        }
        if (std::any_of(w.bays.begin(), w.bays.end(), [](const BayWindow& b) { return b.least >= b.most; }))
          w.bays.clear();
      }
    }
    out.push_back(std::move(w));
  }
  return out;
}

}  // namespace evenpull::inline sequencer
