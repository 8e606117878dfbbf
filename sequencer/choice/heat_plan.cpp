#include "sequencer/choice/heat_plan.hpp"

#include "sequencer/numbers/sobol.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

constexpr double two_pi = 6.283185307179586;
constexpr double full_pass = 1;

// Shrink of each yarn as a share of the stage's full shrink.
using YarnShares = std::array<double, 2>;

// Doses of a pass on a grid of how much warmer and longer it went, between which they are read off.
class DoseGrid {
 public:
  DoseGrid(const Case& c, double stage, const Backing& b, double contact) {
    const Eigen::Matrix3d stiff =
        compliance(c.cloth.stiffness.warp, c.cloth.stiffness.fill, c.cloth.poisson, c.cloth.shear);
    // Full is what the stage brings cloth over an open bay to in the end: a little less than the sole itself would.
    const PassLines best = fit_lines(c.cloth, stiff, heat_history(c, {}, {stage, c.iron.longest_dwell}), stage).lines;
    counts_ = yarns_with_a_say(c.cloth, stiff, stage);
    for (int d = 0; d < 2; ++d) counts_[d] = counts_[d] && best[d].a > 0;
    reach_ = std::max(least_reach, c.iron.swing + spread_reach * c.spreads.sole);
    for (int i = 0; i < warm; ++i)
      for (int j = 0; j < longs; ++j) {
        const HeatHistory h = heat_history(c, b, {stage + warmer(i), contact * longer(j)});
        const FittedLines f = fit_lines(c.cloth, stiff, h, stage);
        for (int d = 0; d < 2; ++d) {
          a_[d][i][j] = counts_[d] ? f.lines[d].a / best[d].a : 0;
          kept_[d][i][j] = f.lines[d].kept;
        }
      }
  }

  /// After a touch, with no pull.
  YarnShares after(const YarnShares& before, double warm_by, double long_by) const {
    const double x = std::clamp((warm_by / reach_ + 1) / 2 * (warm - 1), 0.0, warm - 1 - 1e-9);
    const double y = std::clamp((std::log(long_by) / std::log(longest) + 1) / 2 * (longs - 1), 0.0, longs - 1 - 1e-9);
    const int i = static_cast<int>(x), j = static_cast<int>(y);
    const auto mix = [&](const Grid& g) {
      const double u = x - i, v = y - j;
      return (1 - u) * ((1 - v) * g[i][j] + v * g[i][j + 1]) + u * ((1 - v) * g[i + 1][j] + v * g[i + 1][j + 1]);
    };
    YarnShares out{};
    for (int d = 0; d < 2; ++d) out[d] = std::max(before[d], mix(kept_[d]) * before[d] + mix(a_[d]));
    return out;
  }

  /// The slower yarn decides; where none shrinks nothing is ever done.
  bool done(const YarnShares& s, double band) const {
    return (counts_[0] || counts_[1]) && (!counts_[0] || s[0] >= 1 - band) && (!counts_[1] || s[1] >= 1 - band);
  }
  /// The faster yarn is the one that pulls too much.
  bool beyond(const YarnShares& s, double band) const {
    return (counts_[0] && s[0] > 1 + band) || (counts_[1] && s[1] > 1 + band);
  }

 private:
  static constexpr int warm = 9, longs = 7;
  static constexpr double longest = 3;       // times the contact meant
  static constexpr double least_reach = 5;   // K
  static constexpr double spread_reach = 3;  // sigmas
  using Grid = std::array<std::array<double, longs>, warm>;
  double warmer(int i) const { return reach_ * (2.0 * i / (warm - 1) - 1); }
  static double longer(int j) { return std::pow(longest, 2.0 * j / (longs - 1) - 1); }

  double reach_ = 1;
  std::array<bool, 2> counts_{};
  std::array<Grid, 2> a_{}, kept_{};  // by yarn
};

// Where in its swing the sole is (2), how the hand is (2), what the stroke covers (1), for each pass.
constexpr int numbers_a_pass = 5;

YarnShares shrink_after_pass(const Case& c, const DoseGrid& grid, const double* u, double off,
                             const YarnShares& before) {
  const Iron& iron = c.iron;
  const auto touch = [&](double phase, double hand, const YarnShares& s) {
    return grid.after(s, off + iron.swing * std::sin(two_pi * phase),
                      std::exp(iron.hand_scatter * normal_quantile(hand)));
  };
  if (u[4] < iron.missed) return before;
  const YarnShares once = touch(u[0], u[2], before);
  return u[4] < iron.missed + iron.overlap ? touch(u[1], u[3], once) : once;
}

struct Shares {
  std::vector<double> done, beyond;
};

Shares sample(const Case& c, const DoseGrid& grid, int samples, unsigned seed) {
  // The sole's own error is one for the whole stage: the last number.
  const auto points = sobol_points(samples, numbers_a_pass * most_passes + 1, seed);
  Shares out{std::vector<double>(most_passes), std::vector<double>(most_passes)};
  for (const auto& u : points) {
    const double off = c.spreads.sole * normal_quantile(u.back());
    YarnShares s{};
    for (int pass = 0; pass < most_passes; ++pass) {
      s = shrink_after_pass(c, grid, &u[numbers_a_pass * pass], off, s);
      out.done[pass] += grid.done(s, c.wanted.done_band);
      out.beyond[pass] += grid.beyond(s, c.wanted.done_band);
    }
  }
  for (double& v : out.done) v /= samples;
  for (double& v : out.beyond) v /= samples;
  return out;
}

}  // namespace

PassCount count_passes(const Case& c, double stage, const Backing& b, int samples) {
  const PassHeat meant = pass_heat(c, stage, full_pass);
  const DoseGrid grid(c, stage, b, b.open() ? meant.open.contact : meant.nose->contact);
  // Two shifted halves: their difference tells the error of sampling.
  const Shares first = sample(c, grid, samples / 2, 1), second = sample(c, grid, samples / 2, 2);
  PassCount out;
  for (int i = 0; i < most_passes; ++i) {
    out.done.push_back(0.5 * (first.done[i] + second.done[i]));
    out.beyond.push_back(0.5 * (first.beyond[i] + second.beyond[i]));
    out.error = std::max(out.error, 0.5 * std::abs(first.done[i] - second.done[i]));
    if (out.least == 0 && out.done.back() >= c.wanted.done_share) out.least = i + 1;
  }
  return out;
}

std::vector<StageHeat> plan_heat(const Case& c, const Panel& p) {
  std::vector<StageHeat> out;
  const auto nose = nose_backing(c);
  for (std::size_t s = 0; s < c.stages.size(); ++s) {
    const Stage& stage = c.stages[s];
    StageHeat h;
    for (std::size_t i = 0; i < stage.doses.size(); ++i)
      h.passes.push_back(pass_heat(c, stage.temperature, stage.doses[i],
                                   stated_contact(c, static_cast<int>(s), static_cast<int>(i) + 1, stage.doses[i])));
    h.open = count_passes(c, stage.temperature, {});
    if (nose) h.nose = count_passes(c, stage.temperature, *nose);
    const PassHeat& last = h.passes.back();
    for (std::size_t z = 0; last.nose && !last.nose->reaches && z < p.zones.size(); ++z) {
      const auto on_nose = [&](int q) { return p.nodes[p.quads[q].nodes[1]].on_nose; };
      if (std::any_of(p.zones[z].quads.begin(), p.zones[z].quads.end(), on_nose))
        h.short_zones.push_back({static_cast<int>(z), last.nose->dose});
    }
    out.push_back(std::move(h));
  }
  return out;
}

}  // namespace evenpull::inline sequencer
