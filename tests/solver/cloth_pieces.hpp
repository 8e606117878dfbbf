// Cloth as the tests of its law and of the membrane use it.
#pragma once

#include "tests/support/held_pass.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

namespace evenpull::check {

constexpr double root2 = 1.41421356237309504880;
constexpr double degree = 3.14159265358979323846 / 180;

inline double fahrenheit(double f) { return (f + 459.67) / 1.8; }

/// Compliance of the sample cloth [m/N].
inline Eigen::Matrix3d sample_compliance() {
  const Cloth c = sample::cloth();
  return compliance(c.stiffness.warp, c.stiffness.fill, c.poisson, c.shear);
}

/// Compliance of cloth whose warp, fill and shear all differ [m/N]; invented.
inline Eigen::Matrix3d uneven_compliance() { return compliance(130e3, 80e3, 0.2, 7e3); }

inline ClothPoint cold_point(const Eigen::Matrix3d& c) {
  ClothPoint p;
  p.cold = &c;
  return p;
}

/// Hot cloth on the load lines of the sample cloth.
inline ClothPoint hot_point(const Eigen::Matrix3d& c, double temperature, double dose, double shrink_warp = 0,
                            double shrink_fill = 0, double creep = 0) {
  ClothPoint p = cold_point(c);
  const ShrinkState s = shrink_at(sample::cloth(), c, temperature);
  p.hot = true;
  p.shrink[0] = shrink_warp;
  p.shrink[1] = shrink_fill;
  for (int d = 0; d < 2; ++d) p.line[d] = load_line(held_line(s, d, dose), p.shrink[d], creep);
  return p;
}

/// The law's answer, polished to rounding by a few more Newton steps.
inline Tension law(const ClothPoint& p, const Mandel& strain, double beta) {
  Tension t;
  REQUIRE(solve_law(p, strain, beta, t) > 0);
  for (int i = 0; i < 4; ++i) advance(t, linearise(p, strain, t, beta).correction, beta);
  return t;
}

/// W_beta(e) with its log term [N/m].
inline double smoothed_energy(const ClothPoint& p, const Mandel& strain, double beta) {
  const Mandel n = law(p, strain, beta).pull;
  return energy(p, strain, n) + beta * std::log(n[0] * n[1] - 0.5 * n[2] * n[2]);
}

/// n x n as a Mandel vector, n at an angle from the warp [rad].
inline Mandel along(double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * c, s * s, root2 * c * s};
}

/// Turns Mandel vectors by an angle: components of the turned tensor in the old axes.
inline Eigen::Matrix3d turn(double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  Eigen::Matrix3d q;
  q << c * c, s * s, -root2 * c * s, s * s, c * c, root2 * c * s, root2 * c * s, -root2 * c * s, c * c - s * s;
  return q;
}

}  // namespace evenpull::check
