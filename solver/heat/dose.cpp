#include "solver/heat/dose.hpp"

#include "solver/cloth/shrink.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr double gas_constant = 8.314462618;  // J/(mol K), CODATA 2018
constexpr double ln2 = 0.6931471805599453;

// The line goes through the answers at no pull and at this share of Nc, for cloth unshrunk, and through the one for
// cloth that has shrunk by this share of the first answer.
constexpr double second_pull = 0.7;
constexpr double second_shrink = 0.5;

// Cloth over an open bay stays 2 to 4 K below the sole (docs/model.md, section 4): what a yarn does only above that, no
// dwell brings about.
constexpr double cloth_below_sole = 4;  // K
// Of the other yarn's free shrink: a yarn that does less there is not what a stage is for; judgement.
constexpr double least_say = 0.05;

// k(T) [1/s]: at its own temperature every stage goes at the same rate, since what a stage can do sits in its free shrink
// and pull; on the way there it goes slower.
double shrink_rate(const Cloth& cloth, double t, double stage) {
  return ln2 / cloth.half_time * std::exp(-cloth.activation / gas_constant * (1 / t - 1 / stage));
}

// Free shrink and Nc at the middle of each interval of a history, worked out once for all pulls.
struct Path {
  std::vector<double> step, rate, limit[2], free[2];
  double hottest_limit[2] = {0, 0};
};

Path path_of(const Cloth& cloth, const Eigen::Matrix3d& c, const SpotHistory& h, double stage) {
  Path p;
  double hottest = 0;
  for (std::size_t i = 0; i + 1 < h.time.size(); ++i) {
    const double t = 0.5 * (h.temperature[i] + h.temperature[i + 1]);
    const ShrinkState s = shrink_at(cloth, c, t);
    p.step.push_back(h.time[i + 1] - h.time[i]);
    p.rate.push_back(shrink_rate(cloth, t, stage));
    for (int d = 0; d < 2; ++d) {
      p.free[d].push_back(s.free_shrink[d]);
      p.limit[d].push_back(s.limit_pull[d]);
      if (t > hottest) p.hottest_limit[d] = s.limit_pull[d];
    }
    hottest = std::max(hottest, t);
  }
  return p;
}

// Exact within an interval of constant temperature.
double through(const Path& p, int d, double pull, double s) {
  for (std::size_t i = 0; i < p.step.size(); ++i) {
    if (p.limit[d][i] <= 0) continue;
    const double target = p.free[d][i] * (1 - pull / p.limit[d][i]);
    if (target > s) s = target + (s - target) * std::exp(-p.rate[i] * p.step[i]);
  }
  return s;
}

PassLine line_through(const Path& p, int d, double& error) {
  PassLine l;
  l.creep_pull = p.hottest_limit[d];
  l.a = through(p, d, 0, 0);
  if (l.a <= 0 || l.creep_pull <= 0) return {1, 0, 0, 0};
  const double pull = second_pull * l.creep_pull, begun = second_shrink * l.a;
  l.b = std::max(0.0, (l.a - through(p, d, pull, 0)) / pull);
  l.kept = std::clamp((through(p, d, 0, begun) - l.a) / begun, 0.0, 1.0);
  for (const auto& [n, s] : {std::pair(0.5 * pull, 0.0), std::pair(0.5 * pull, begun), std::pair(0.0, 0.5 * begun),
                             std::pair(l.creep_pull, 0.0)})
    error = std::max(error, std::abs(std::max(s, l.kept * s + l.a - l.b * n) - through(p, d, n, s)));
  return l;
}

// What the stage can do, yarn by yarn.
struct Full {
  std::array<double, 2> shrink{};
  std::array<bool, 2> say{};
};

Full full_of(const Cloth& cloth, const Eigen::Matrix3d& c, double stage) {
  const ShrinkState s = shrink_at(cloth, c, stage);
  return {{s.free_shrink[0], s.free_shrink[1]}, yarns_with_a_say(cloth, c, stage)};
}

Dose dose_from(const Full& full, const std::array<double, 2>& shrink) {
  Dose out;
  bool first = true;
  for (int d = 0; d < 2; ++d) {
    if (!full.say[d]) continue;
    const double share = shrink[d] / full.shrink[d];
    out.slower = first ? share : std::min(out.slower, share);
    out.faster = std::max(out.faster, share);
    first = false;
  }
  return out;
}

}  // namespace

std::array<bool, 2> yarns_with_a_say(const Cloth& cloth, const Eigen::Matrix3d& c, double stage) {
  // Where even the better yarn does nothing that far below the sole, what they do at the sole's own temperature decides.
  for (const double t : {stage - cloth_below_sole, stage}) {
    const ShrinkState s = shrink_at(cloth, c, t);
    const double most = std::max(s.free_shrink[0], s.free_shrink[1]);
    if (most > 0) return {s.free_shrink[0] > least_say * most, s.free_shrink[1] > least_say * most};
  }
  return {false, false};
}

FittedLines fit_lines(const Cloth& cloth, const Eigen::Matrix3d& c, const HeatHistory& h, double stage) {
  FittedLines out;
  const double share = 1.0 / static_cast<double>(h.spots.size());
  const Full full = full_of(cloth, c, stage);
  double error[2] = {0, 0};
  for (PassLine& l : out.lines) l = {0, 0, 0, 0};
  for (const SpotHistory& spot : h.spots) {
    const Path p = path_of(cloth, c, spot, stage);
    for (int d = 0; d < 2; ++d) {
      const PassLine l = line_through(p, d, error[d]);
      out.lines[d].kept += share * l.kept;
      out.lines[d].a += share * l.a;
      out.lines[d].b += share * l.b;
      out.lines[d].creep_pull += share * l.creep_pull;
    }
  }
  out.dose = dose_from(full, {out.lines[0].a, out.lines[1].a});
  // A yarn without a say is measured by what the other does, for its own share would be of next to nothing.
  const double most = std::max(full.shrink[0], full.shrink[1]);
  for (int d = 0; d < 2; ++d)
    if (error[d] > 0) out.fit_error = std::max(out.fit_error, error[d] / (full.say[d] ? full.shrink[d] : most));
  return out;
}

Dose dose_of(const Cloth& cloth, const Eigen::Matrix3d& c, const HeatHistory& h, double stage) {
  std::array<double, 2> shrink{};
  for (const SpotHistory& spot : h.spots) {
    const Path p = path_of(cloth, c, spot, stage);
    for (int d = 0; d < 2; ++d) shrink[d] += through(p, d, 0, 0) / static_cast<double>(h.spots.size());
  }
  return dose_from(full_of(cloth, c, stage), shrink);
}

}  // namespace evenpull::inline solver
