// Random influences for tests of the searches: every number invented, the same for the same seed.
#pragma once

#include "sequencer/search/influence.hpp"

#include <algorithm>
#include <random>

namespace evenpull {

/// Things along two sides, even ones on top: neighbours pull each other, sides move the gauges of pull apart. One cell each.
inline Influence random_influence(int n, unsigned seed, int uses = 3) {
  std::mt19937 random(seed);
  const auto draw = [&](double low, double high) { return low + (high - low) * (random() % 10001) / 10000.0; };
  Influence i;
  i.layout.uses = uses;
  i.layout.bays = 1;
  i.start = Eigen::VectorXd::Zero(i.layout.size());
  i.effect.resize(i.layout.size(), n);
  i.push.resize(n, n);
  i.shrink = i.pull = Eigen::VectorXd::Zero(n);
  i.free_shrink = Eigen::VectorXd::Constant(n, 1);
  i.give = Eigen::VectorXd::Constant(n, 1);
  for (int c = 0; c < n; ++c) {
    for (int g = 0; g < uses; ++g) i.effect(g, c) = draw(-0.3, 1);
    const bool top = c % 2 == 0;
    for (int k = 0; k < 4; ++k) i.effect(uses + k, c) = (k % 2 == 0) == top ? draw(20, 100) : draw(-5, 5);
    for (int r = 0; r < n; ++r) i.push(r, c) = r == c ? draw(0.5, 1) : draw(-0.02, 0.25);
    i.things.push_back({{c}});
  }
  return i;
}

inline Ways random_ways(int n, unsigned seed) {
  std::mt19937 random(seed + 77);
  Ways w{Eigen::MatrixXd::Zero(n, n), Eigen::MatrixXi::Zero(n, n)};
  for (int a = 0; a < n; ++a)
    for (int b = 0; b < n; ++b) w.travel(a, b) = (random() % 1000) / 1000.0, w.turn_over(a, b) = (a + b) % 2;
  return w;
}

inline InfluenceModel random_model(int n, unsigned seed, std::vector<double> doses = {1}) {
  return InfluenceModel(random_influence(n, seed), random_ways(n, seed), std::move(doses));
}

inline bool holds_each_once(std::vector<int> order, int n) {
  std::sort(order.begin(), order.end());
  for (int i = 0; i < n; ++i)
    if (order[i] != i) return false;
  return static_cast<int>(order.size()) == n;
}

}  // namespace evenpull
