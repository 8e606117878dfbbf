#include "sequencer/numbers/sobol.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/sobol.hpp>
#include <boost/random/uniform_01.hpp>

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

// Keeps quantiles finite; far finer than any sample here resolves.
constexpr double edge = 1e-9;

}  // namespace

std::vector<std::vector<double>> sobol_points(int count, int dimensions, unsigned seed) {
  boost::random::sobol engine(static_cast<std::size_t>(dimensions));
  boost::random::uniform_01<double> to_unit;
  std::vector<double> shift(dimensions, 0.5 / count);
  if (seed > 0) {
    boost::random::mt19937 random(seed);
    for (double& s : shift) s = to_unit(random);
  }
  std::vector<std::vector<double>> out(count, std::vector<double>(dimensions));
  for (auto& point : out)
    for (int d = 0; d < dimensions; ++d) {
      const double u = to_unit(engine) + shift[d];
      point[d] = std::clamp(u - std::floor(u), edge, 1 - edge);
    }
  return out;
}

double normal_quantile(double p) { return boost::math::quantile(boost::math::normal(), p); }

}  // namespace evenpull::inline sequencer
