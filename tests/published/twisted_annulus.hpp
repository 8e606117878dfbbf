// An annular sheet, isotropic, pre-tensed evenly, glued to a rigid hub and a rigid rim, the hub turned in its plane:
// the axisymmetric tension field, solved in one dimension and small strains. Stein & Hedgepeth, NASA TN D-813 (1961),
// and Mikulas, NASA TN D-2456 (1964), treat the turned hub in a stretched sheet (from memory; their numbers could not
// be looked up). Derived here:
//
// Balance about the centre: N_rt = k/r^2, torque T = 2 pi k. With N0 both ways before, no radial motion comes of the
// twist while the sheet is tight, and it stays tight until N_rt = N0 at the hub: T = 2 pi a^2 N0.
// Then a < r < b is puckered, N = sigma n(x)n, n at alpha from the radius. (r N_r)' = N_t with N_r = N_rt cot(alpha),
// N_t = N_rt tan(alpha) gives r sin(alpha) = r0: folds are straight, tangents to a circle. So
//   sigma = k/(r0 sqrt(r^2 - r0^2)).
// Along a fold the strain is sigma/E, e0 = N0 (1 - nu)/E of it from before, and strain and pull have the same axes:
//   e = sigma/E - e0,   u' = u/r + (e - u/r)(1 - tan^2 alpha),   gamma = 2 (e - u/r) tan(alpha),   (v/r)' = gamma/r
// b < r < R is tight: u = A r + B/r, A = -B/R^2 (the rim stands), v/r = -(k/2G)(1/r^2 - 1/R^2), and
//   N_r, N_t = N0 + E A/(1 - nu) -+ E B/((1 + nu) r^2).
// At b both pulls, and with them the strains, are continuous: N_r = k cot(alpha)/b^2 and N_t = k tan(alpha)/b^2 give B
// and k from b and alpha(b); alpha(b) follows from u(a) = 0, b from the twist.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>

namespace evenpull::published {

struct Annulus {
  double hub, rim;   ///< radii [m]
  double stiffness;  ///< Et [N/m]
  double poisson;
  double pre_pull;  ///< N0 [N/m]
  double shear() const { return stiffness / (2 * (1 + poisson)); }
  double pre_strain() const { return pre_pull * (1 - poisson) / stiffness; }
  double first_pucker_torque() const { return 2 * 3.14159265358979323846 * hub * hub * pre_pull; }
  /// Twist per torque while tight [1/(N m)].
  double twist_per_torque() const {
    return (1 / (hub * hub) - 1 / (rim * rim)) / (4 * 3.14159265358979323846 * shear());
  }
};

struct TwistedAnnulus {
  double torque = 0;           ///< N m
  double puckered_radius = 0;  ///< b [m]
};

namespace detail {

struct Shot {
  double k, hub_u, twist;
};

// Integrates from b down to the hub by the classical Runge-Kutta method.
inline Shot shoot(const Annulus& s, double b, double alpha) {
  constexpr int steps = 400;  // fourth order: far below 1e-8
  const double t = std::tan(alpha), r0 = b * std::sin(alpha), nu = s.poisson;
  const double k = 2 * s.pre_pull / ((1 / t + t) / (b * b) + (1 + nu) / (1 - nu) * (t - 1 / t) / (s.rim * s.rim));
  const double big_b = 0.5 * (1 + nu) * k * (t - 1 / t) / s.stiffness;
  using State = std::array<double, 2>;  // u, v/r
  const auto slope = [&](double r, const State& y) -> State {
    const double tan2 = r0 * r0 / (r * r - r0 * r0);
    const double e = k / (s.stiffness * r0 * std::sqrt(r * r - r0 * r0)) - s.pre_strain(), hoop = y[0] / r;
    return {hoop + (e - hoop) * (1 - tan2), 2 * (e - hoop) * std::sqrt(tan2) / r};
  };
  const auto along = [](const State& y, double h, const State& d) -> State {
    return {y[0] + h * d[0], y[1] + h * d[1]};
  };
  State y = {big_b * (1 / b - b / (s.rim * s.rim)), -k / (2 * s.shear()) * (1 / (b * b) - 1 / (s.rim * s.rim))};
  const double h = (s.hub - b) / steps;
  for (int i = 0; i < steps; ++i) {
    const double r = b + i * h;
    const State d1 = slope(r, y), d2 = slope(r + h / 2, along(y, h / 2, d1)),
                d3 = slope(r + h / 2, along(y, h / 2, d2)), d4 = slope(r + h, along(y, h, d3));
    for (int c : {0, 1}) y[c] += h / 6 * (d1[c] + 2 * d2[c] + 2 * d3[c] + d4[c]);
  }
  return {k, y[0], -y[1]};
}

// alpha(b) that leaves the cloth at the hub: u(a) rises with it. The lower end is where k would be endless.
inline Shot meet_hub(const Annulus& s, double b) {
  const double spread = (1 + s.poisson) / (1 - s.poisson) * b * b / (s.rim * s.rim);
  double low = 0.02 + std::atan(std::sqrt(std::max(0.0, (spread - 1) / (spread + 1))));
  double high = std::min(std::asin(s.hub / b) - 1e-6, 0.78539816);
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (shoot(s, b, middle).hub_u < 0 ? low : high) = middle;
  }
  return shoot(s, b, low);
}

}  // namespace detail

/// Torque and puckered radius at a twist [rad] past the first pucker; b must stay well within the rim.
inline TwistedAnnulus twist_annulus(const Annulus& s, double twist) {
  double low = s.hub * (1 + 1e-6), high = 0.95 * s.rim;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (detail::meet_hub(s, middle).twist < twist ? low : high) = middle;
  }
  return {2 * 3.14159265358979323846 * detail::meet_hub(s, low).k, low};
}

}  // namespace evenpull::published
