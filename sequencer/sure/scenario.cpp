#include "sequencer/sure/scenario.hpp"

#include "sequencer/numbers/sobol.hpp"
#include "sequencer/sure/frame_range.hpp"
#include "solver/cloth/shrink.hpp"
#include "solver/heat/thermal.hpp"

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_01.hpp>

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

constexpr double two_pi = 6.283185307179586;
// Of the free shrink that the pull at fixed length may take up elastically (it must be below 1).
constexpr double most_elastic = 0.8;
constexpr double least_hand = 1e-3;

// Points of the grid over the swing (in swings) and over the hand (in sigmas).
constexpr double swings[] = {-1, 0, 1};
constexpr double hands[] = {-2, 0, 2};

constexpr std::size_t first_yarn = unsure_count, first_point = first_yarn + 2;

// Own draws not given are 0.
double own_draw(const std::vector<double>& sigmas, std::size_t i) {
  return i < sigmas.size() ? std::clamp(sigmas[i], -most_sigmas, most_sigmas) : 0;
}

// The last numbers; none where nothing of the frame has a range, or where they are left out: all is as usual then.
std::vector<double> frame_draws(const Case& c, const std::vector<double>& sigmas) {
  const std::size_t first = first_point + c.cloth.curve.size();
  std::vector<double> out;
  if (sigmas.size() <= first) return out;
  for (int k = 0; k < numbers_of_frame(c); ++k) out.push_back(own_draw(sigmas, first + static_cast<std::size_t>(k)));
  return out;
}

// Between which points of the curve a temperature lies, and how far on from the cooler.
struct OnCurve {
  std::size_t point = 0;
  double share = 0;
};

OnCurve on_curve(const std::vector<ShrinkPoint>& curve, double temperature) {
  std::size_t i = 0;
  while (i + 2 < curve.size() && curve[i + 1].temperature <= temperature) ++i;
  return {i, std::clamp((temperature - curve[i].temperature) / (curve[i + 1].temperature - curve[i].temperature), 0.0,
                        1.0)};
}

// Logarithm by which the pull of a yarn is off at a point of the curve.
double pull_draw(const Case& c, const std::vector<double>& sigmas, std::size_t yarn, std::size_t point) {
  const Spreads& spread = c.spreads;
  return spread.common_at(c.cloth.curve[point]) * own_draw(sigmas, static_cast<std::size_t>(Unsure::pull)) +
         spread.pull_of_stage * own_draw(sigmas, first_point + point) +
         spread.pull_of_yarn * own_draw(sigmas, first_yarn + yarn);
}

void scale(Yarns& y, double by) { y.warp *= by, y.fill *= by; }

// Shrink is a share of length: never more than a half.
void scale_shrink(Yarns& y, double by) {
  constexpr double most = 0.5;
  y = {std::min(most, y.warp * by), std::min(most, y.fill * by)};
}

void hold_pull(const Cloth& cloth, ShrinkPoint& p) {
  const Eigen::Matrix3d c = compliance(cloth.stiffness.warp, cloth.stiffness.fill, cloth.poisson, cloth.shear);
  const Mandel elastic = c * Mandel(p.pull.warp, p.pull.fill, 0);
  double least = 1;
  const double free[] = {shrink_strain(p.free_shrink.warp), shrink_strain(p.free_shrink.fill)};
  for (int d = 0; d < 2; ++d)
    if (elastic[d] > most_elastic * free[d]) least = std::min(least, most_elastic * free[d] / elastic[d]);
  scale(p.pull, least);
}

PassLines mixed(const PassLines& a, const PassLines& b, double share) {
  PassLines out;
  const auto mix = [&](double x, double y) { return x + share * (y - x); };
  for (int d = 0; d < 2; ++d)
    out[d] = {mix(a[d].kept, b[d].kept), mix(a[d].a, b[d].a), mix(a[d].b, b[d].b),
              mix(a[d].creep_pull, b[d].creep_pull)};
  return out;
}

}  // namespace

double spread_of(const Spreads& s, Unsure u) {
  switch (u) {
    case Unsure::free_shrink: return s.free_shrink;
    case Unsure::pull: return s.pull();
    case Unsure::cloth_stiffness: return s.cloth_stiffness;
    case Unsure::member_stiffness: return s.member_stiffness;
    case Unsure::friction: return s.friction;
    case Unsure::looseness: return s.looseness;
    case Unsure::half_time: return s.half_time;
    case Unsure::sole: return s.sole;
    case Unsure::joints: return 0;
  }
  return 0;
}

double spread_of(const Case& c, Unsure u, double temperature) {
  if (u != Unsure::pull) return spread_of(c.spreads, u);
  const auto [i, share] = on_curve(c.cloth.curve, temperature);
  return std::lerp(c.spreads.pull_at(c.cloth.curve[i]), c.spreads.pull_at(c.cloth.curve[i + 1]), share);
}

double common_pull_spread(const Case& c, double temperature) {
  const auto [i, share] = on_curve(c.cloth.curve, temperature);
  return std::lerp(c.spreads.common_at(c.cloth.curve[i]), c.spreads.common_at(c.cloth.curve[i + 1]), share);
}

int numbers_of(const Case& c) { return static_cast<int>(first_point + c.cloth.curve.size()) + numbers_of_frame(c); }

std::vector<double> regressors(const Case& c, const std::vector<double>& sigmas, double temperature) {
  std::vector<double> out(sigmas.begin(), sigmas.begin() + unsure_count);
  const auto [i, share] = on_curve(c.cloth.curve, temperature);
  double pull = 0;
  for (const std::size_t yarn : {0, 1})
    pull += 0.5 * ((1 - share) * pull_draw(c, sigmas, yarn, i) + share * pull_draw(c, sigmas, yarn, i + 1));
  const double spread = spread_of(c, Unsure::pull, temperature);
  out[static_cast<std::size_t>(Unsure::pull)] = spread > 0 ? pull / spread : 0;
  if (const std::vector<double> of_frame = frame_draws(c, sigmas); !of_frame.empty()) {
    double sum = 0;
    for (const double z : of_frame) sum += z;
    out.push_back(sum / std::sqrt(static_cast<double>(of_frame.size())));
  }
  return out;
}

Case drawn_case(const Case& c, const std::vector<double>& sigmas) {
  Case out = c;
  const auto factor = [&](Unsure u) {
    const double z = std::clamp(sigmas[static_cast<std::size_t>(u)], -most_sigmas, most_sigmas);
    return std::exp(spread_of(c.spreads, u) * z);
  };
  scale(out.cloth.stiffness, factor(Unsure::cloth_stiffness));
  out.cloth.shear *= factor(Unsure::cloth_stiffness);
  scale_shrink(out.cloth.looseness, factor(Unsure::looseness));
  // Slow is slow: a poor contact and a slow shrink are drawn as one.
  out.cloth.half_time *= factor(Unsure::half_time);
  out.iron.conductance /= factor(Unsure::half_time);
  for (std::size_t i = 0; i < out.cloth.curve.size(); ++i) {
    ShrinkPoint& p = out.cloth.curve[i];
    scale_shrink(p.free_shrink, factor(Unsure::free_shrink));
    p.pull.warp *= std::exp(pull_draw(c, sigmas, 0, i));
    p.pull.fill *= std::exp(pull_draw(c, sigmas, 1, i));
    hold_pull(out.cloth, p);
  }
  for (Material& m : out.materials) {
    m.youngs_modulus *= factor(Unsure::member_stiffness);
    m.shear_modulus *= factor(Unsure::member_stiffness);
    m.heat = heat_of(c.materials[static_cast<std::size_t>(&m - out.materials.data())]);
  }
  out.blanket.edge_friction *= factor(Unsure::friction);
  out.blanket.rib_friction *= factor(Unsure::friction);
  if (const std::vector<double> of_frame = frame_draws(c, sigmas); !of_frame.empty()) draw_frame(out, of_frame.data());
  return out;
}

ScenarioHeat::ScenarioHeat(const Case& meant, const Case& drawn, double sole_off, unsigned number, std::size_t steps)
    : meant_(meant), drawn_(drawn), sole_off_(sole_off) {
  boost::random::mt19937 random(number + 1);
  boost::random::uniform_01<double> unit;
  for (std::size_t i = 0; i < steps; ++i) {
    warmer_.push_back(std::sin(two_pi * unit(random)));
    const double p = std::clamp(unit(random), 1e-6, 1 - 1e-6);
    longer_.push_back(std::clamp(normal_quantile(p), hands[0], hands[2]));
  }
}

const ScenarioHeat::Grid& ScenarioHeat::grid(const Step& step) {
  const double stated = stated_contact(meant_, step.stage, step.pass, step.dose);
  const std::vector<double> key{static_cast<double>(step.stage), step.dose, stated};
  const auto known = grids_.find(key);
  if (known != grids_.end()) return known->second;
  Grid g;
  g.pass = pass_heat(meant_, meant_.stages[step.stage].temperature, step.dose, stated);
  const double hand = std::max(least_hand, meant_.iron.hand_scatter);
  for (const double w : swings) {
    g.at.emplace_back();
    for (const double h : hands)
      g.at.back().push_back(as_it_went(drawn_, g.pass, sole_off_ + w * meant_.iron.swing, std::exp(hand * h)));
  }
  return grids_.emplace(key, std::move(g)).first->second;
}

PassHeat ScenarioHeat::of(const Step& step, std::size_t index) {
  const Grid& g = grid(step);
  const double w = warmer_[index], h = longer_[index];
  const std::size_t i = w < 0 ? 0 : 1, j = h < 0 ? 0 : 1;
  const double u = (w - swings[i]) / (swings[i + 1] - swings[i]), v = (h - hands[j]) / (hands[j + 1] - hands[j]);
  PassHeat out = g.pass;
  const auto lines = [&](const auto& of) {
    return mixed(mixed(of(g.at[i][j]), of(g.at[i][j + 1]), v), mixed(of(g.at[i + 1][j]), of(g.at[i + 1][j + 1]), v), u);
  };
  out.open.lines = lines([](const PassHeat& p) { return p.open.lines; });
  if (out.nose) out.nose->lines = lines([](const PassHeat& p) { return p.nose->lines; });
  return out;
}

}  // namespace evenpull::inline sequencer
