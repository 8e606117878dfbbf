// Sliding of cloth over structure: docs/model.md, section 6. Wrapped edge: stick while
// |T_top - T_bottom| <= tanh(mu theta / 2) (T_top + T_bottom), equivalent to the capstan (Euler-Eytelwein) law
// T_high / T_low <= exp(mu theta). Bearing: |f| <= mu times the normal force.
#pragma once

#include <Eigen/Core>

namespace evenpull::inline solver {

/// Threshold of a wrapped edge [N] from the tangential forces above and below [N].
double wrap_threshold(double top, double bottom, double friction, double wrap_angle);

/// Regularised friction at one sliding point, linearised: f = predicted + stiffness dq.
struct FrictionStep {
  Eigen::Vector2d predicted{0, 0};                      ///< N, the law at the present slip
  Eigen::Matrix2d stiffness = Eigen::Matrix2d::Zero();  ///< N/m
};

/// `slip` is measured from where the point stood at the last accepted state; `kept` is the friction force there, which
/// is remembered by shifting the origin by -eps f / tau; `force` is the present iterate.
FrictionStep friction_step(const Eigen::Vector2d& slip, const Eigen::Vector2d& kept, const Eigen::Vector2d& force,
                           double threshold, double sliding_width);

/// Shortens a force to the threshold.
Eigen::Vector2d clip(const Eigen::Vector2d& force, double threshold);

}  // namespace evenpull::inline solver
