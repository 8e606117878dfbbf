// The turned hub of twisted_annulus.hpp at real strains: nothing is small. Derived here.
//
// Places x(r, t) = R(r) e(t + p(r)), so that Green's strain in the axes of the radius and the circle is
//   E_rr = (R'^2 + R^2 p'^2 - 1)/2,   E_tt = (R^2/r^2 - 1)/2,   E_rt = R^2 p'/(2 r)
// and the pull N is that of the relaxed isotropic energy at e = E + e0: tight, puckered or loose by principal values.
// Force on a circle of length 2 pi r, along and across the present radius: f = R' N_rr, g = R p' N_rr + N_rt R/r.
//   torque       2 pi r R g = T
//   radial       (r f)' = r (N_rr R p'^2 + N_tt R/r^2 + 2 N_rt R p'/r)      (Euler-Lagrange equation of the energy in
//   R)
// Integrated from hub to rim; R' and p' follow from f and g at each place, T and f at the hub from R(rim) = rim and the
// twist.
#pragma once

#include "tests/published/twisted_annulus.hpp"

#include <Eigen/LU>

#include <cmath>

namespace evenpull::published {

class LargeTwist {
 public:
  explicit LargeTwist(const Annulus& s) : s_(s) {}

  /// Torque [N m] at a twist [rad], reached from rest in even steps.
  double torque(double twist) {
    constexpr int path = 20, most_rounds = 20;
    Eigen::Vector2d at(0, s_.pre_pull);
    for (int step = 1; step <= path; ++step)
      for (int round = 0; round < most_rounds; ++round) {
        const Eigen::Vector2d goal(s_.rim, twist * step / path);
        const Eigen::Vector2d miss = rim_at(at) - goal, by(1e-5 * s_.first_pucker_torque(), 1e-5 * s_.pre_pull);
        Eigen::Matrix2d slope;
        for (int k : {0, 1}) slope.col(k) = (rim_at(at + by[k] * Eigen::Vector2d::Unit(k)) - rim_at(at)) / by[k];
        const Eigen::Vector2d move = slope.inverse() * miss;
        at -= move;
        if (std::abs(move[0]) < 1e-9 * s_.first_pucker_torque() && std::abs(move[1]) < 1e-9 * s_.pre_pull) break;
      }
    return at[0];
  }

 private:
  // Symmetric tensors rr, tt, rt.
  Eigen::Vector3d pull(const Eigen::Vector3d& strain) const {
    const double mean = 0.5 * (strain[0] + strain[1]), half = 0.5 * (strain[0] - strain[1]);
    const double radius = std::hypot(half, strain[2]), nu = s_.poisson;
    const double first = mean + radius, second = mean - radius;
    double n1 = 0, n2 = 0;
    if (second + nu * first > 0) {
      n1 = s_.stiffness / (1 - nu * nu) * (first + nu * second);
      n2 = s_.stiffness / (1 - nu * nu) * (second + nu * first);
    } else if (first > 0) {
      n1 = s_.stiffness * first;
    }
    const double c = radius > 0 ? half / radius : 1, sine = radius > 0 ? strain[2] / radius : 0;
    return {0.5 * (n1 + n2 + (n1 - n2) * c), 0.5 * (n1 + n2 - (n1 - n2) * c), 0.5 * (n1 - n2) * sine};
  }
  Eigen::Vector3d pull(double r, double radius, const Eigen::Vector2d& d) const {
    const double e0 = s_.pre_strain(), swing = radius * d[1];
    return pull({0.5 * (d[0] * d[0] + swing * swing - 1) + e0, 0.5 * (radius * radius / (r * r) - 1) + e0,
                 0.5 * radius * swing / r});
  }
  Eigen::Vector2d force(double r, double radius, const Eigen::Vector2d& d) const {
    const Eigen::Vector3d n = pull(r, radius, d);
    return {d[0] * n[0], radius * d[1] * n[0] + n[2] * radius / r};
  }
  // R' and p' at which the circle bears f and g; `d` is the first guess.
  Eigen::Vector2d slopes(double r, double radius, const Eigen::Vector2d& wanted, Eigen::Vector2d d) const {
    for (int round = 0; round < 30; ++round) {
      const Eigen::Vector2d miss = force(r, radius, d) - wanted;
      const Eigen::Vector2d by(1e-8, 1e-8 / s_.rim);
      Eigen::Matrix2d slope;
      for (int k : {0, 1})
        slope.col(k) = (force(r, radius, d + by[k] * Eigen::Vector2d::Unit(k)) - force(r, radius, d)) / by[k];
      d -= slope.inverse() * miss;
      if (miss.norm() < 1e-9 * s_.pre_pull) break;
    }
    return d;
  }
  // (R, twist from hub to here) at the rim; `at` = torque and f at the hub. Classical Runge-Kutta.
  Eigen::Vector2d rim_at(const Eigen::Vector2d& at) const {
    constexpr int steps = 200;
    const double torque = at[0] / (2 * 3.14159265358979323846), h = (s_.rim - s_.hub) / steps;
    Eigen::Vector3d y(s_.hub, s_.hub * at[1], 0);  // R, r f, p
    Eigen::Vector2d d(1, 0);
    const auto slope = [&](double r, const Eigen::Vector3d& v) -> Eigen::Vector3d {
      d = slopes(r, v[0], {v[1] / r, torque / (r * v[0])}, d);
      const Eigen::Vector3d n = pull(r, v[0], d);
      return {d[0], r * (n[0] * v[0] * d[1] * d[1] + n[1] * v[0] / (r * r) + 2 * n[2] * v[0] * d[1] / r), d[1]};
    };
    for (int i = 0; i < steps; ++i) {
      const double r = s_.hub + i * h;
      const Eigen::Vector3d a = slope(r, y), b = slope(r + h / 2, y + h / 2 * a), c = slope(r + h / 2, y + h / 2 * b),
                            e = slope(r + h, y + h * c);
      y += h / 6 * (a + 2 * b + 2 * c + e);
    }
    return {y[0], y[2]};
  }

  Annulus s_;
};

}  // namespace evenpull::published
