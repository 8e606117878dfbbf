#include "solver/sound/weighted_square.hpp"

#include "solver/sound/tight_bay.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace evenpull::inline solver {
namespace {

constexpr double two_pi = 6.283185307179586;

// What a mesh of the membrane takes of the energy bound, by radius over side (computed here; tests/published holds it).
constexpr double by_disc[] = {0.05, 0.0875, 0.125, 0.15, 0.20};
constexpr double share_of_bound[] = {0.401, 0.535, 0.641, 0.700, 0.797};

double share_taken(double disc) {
  const double x = std::clamp(disc, std::begin(by_disc)[0], *std::rbegin(by_disc));
  std::size_t i = 1;
  while (i + 1 < std::size(by_disc) && x > by_disc[i]) ++i;
  return share_of_bound[i - 1] +
         (share_of_bound[i] - share_of_bound[i - 1]) * (x - by_disc[i - 1]) / (by_disc[i] - by_disc[i - 1]);
}

}  // namespace

double disc_reach(const WeightedSquare& square) {
  return two_pi * sag_under_disc({square.side, square.side, 1, 1}, 1, square.radius);
}

double pull_of_sag(const WeightedSquare& square, double force, double sag) {
  return force * disc_reach(square) / (two_pi * sag);
}

double pull_by_sagging(const WeightedSquare& square, double stiffness) {
  const double reach = disc_reach(square), rho = square.radius * std::exp(reach);
  const double bound = 0.25 * stiffness * std::pow(reach, -3) * (1 / (square.radius * square.radius) - 1 / (rho * rho));
  return share_taken(square.radius / square.side) * bound;
}

double sag_of_square(const WeightedSquare& square, double force, double pull, double by_sagging) {
  const double load = force * disc_reach(square) / two_pi;
  double w = load / pull;
  // From above, where the cubic is convex: each step comes nearer and none goes past.
  constexpr int enough = 60;
  for (int i = 0; i < enough; ++i) {
    const double off = pull * w + by_sagging * w * w * w - load;
    const double step = off / (pull + 3 * by_sagging * w * w);
    w -= step;
    if (std::abs(step) <= 1e-14 * w) break;
  }
  return w;
}

}  // namespace evenpull::inline solver
