#include "solver/sound/tight_bay.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace evenpull::inline solver {
namespace {

constexpr double pi = 3.14159265358979323846;

// ln(rho/b) of a rectangle a x b, b the short side: ln(2/pi) - 2 sum (-1)^m ln tanh(m pi a/(2b)). Terms fall as
// exp(-m pi a/b): eight are exact in double.
double log_conformal_radius(double aspect) {
  double sum = std::log(2 / pi);
  for (int m = 1; m <= 12; ++m) sum -= 2 * (m % 2 ? -1 : 1) * std::log(std::tanh(0.5 * m * pi * aspect));
  return sum;
}

}  // namespace

double sag_under_disc(const TightBay& bay, double force, double radius) {
  const double mean = std::sqrt(bay.pull_chord * bay.pull_span);
  const double along = std::sqrt(mean / bay.pull_chord), across = std::sqrt(mean / bay.pull_span);
  const double a = bay.chordwise * along, b = bay.spanwise * across;
  const double disc = 0.5 * radius * (along + across);
  return force / (2 * pi * mean) *
         (log_conformal_radius(std::max(a, b) / std::min(a, b)) + std::log(std::min(a, b) / disc));
}

double least_sag_under_disc(const TightBay& bay, double force, double radius, double stiffness) {
  const double slack = sag_under_disc(bay, force, radius);
  const double span = 2 * pi * std::sqrt(bay.pull_chord * bay.pull_span) * slack / force;  // ln(rho/c)
  const double rho = radius * std::exp(span);
  const double cubic = 0.5 * pi * stiffness * std::pow(span, -4) * (1 / (radius * radius) - 1 / (rho * rho));
  const double linear = force / slack;
  std::uintmax_t most = 60;
  const auto left = [&](double w) { return linear * w + cubic * w * w * w - force; };
  return boost::math::tools::toms748_solve(left, 0.0, slack, boost::math::tools::eps_tolerance<double>(), most).first;
}

double air_on_bay(double aspect) {
  constexpr int rows = 6;
  constexpr double at[rows] = {1, 1.25, 1.5, 2, 3, 4},
                   beta[rows] = {0.40950, 0.45639, 0.49634, 0.56191, 0.65846, 0.72906};
  const double x = std::clamp(aspect, at[0], at[rows - 1]);
  int i = 1;
  while (i < rows - 1 && x > at[i]) ++i;
  return beta[i - 1] + (beta[i] - beta[i - 1]) * (x - at[i - 1]) / (at[i] - at[i - 1]);
}

double tap_frequency(const TightBay& bay, double areal_mass, double air_density, double air_sides) {
  const double shorter = std::min(bay.chordwise, bay.spanwise), longer = std::max(bay.chordwise, bay.spanwise);
  const double mass = areal_mass + air_sides * air_on_bay(longer / shorter) * air_density * shorter;
  const double x = bay.pull_chord / (bay.chordwise * bay.chordwise), y = bay.pull_span / (bay.spanwise * bay.spanwise);
  return 0.5 * std::sqrt((x + y) / mass);
}

}  // namespace evenpull::inline solver
