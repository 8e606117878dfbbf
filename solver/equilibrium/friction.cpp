#include "solver/equilibrium/friction.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {

namespace {
// Below this threshold [N] a point counts as free: its friction cannot matter next to pulls of newtons.
constexpr double negligible = 1e-9;
}  // namespace

double wrap_threshold(double top, double bottom, double friction, double wrap_angle) {
  return std::tanh(0.5 * friction * wrap_angle) * std::max(0.0, top + bottom);
}

Eigen::Vector2d clip(const Eigen::Vector2d& force, double threshold) {
  const double size = force.norm();
  return size > threshold ? Eigen::Vector2d(force * (threshold / size)) : force;
}

FrictionStep friction_step(const Eigen::Vector2d& slip, const Eigen::Vector2d& kept, const Eigen::Vector2d& force,
                           double threshold, double width) {
  FrictionStep out;
  if (threshold < negligible) return out;
  const Eigen::Vector2d moved = slip + clip(kept, threshold) * (width / threshold);
  const double size = moved.norm();
  if (size <= width) {
    out.predicted = moved * (threshold / width);
    out.stiffness = Eigen::Matrix2d::Identity() * (threshold / width);
    return out;
  }
  const Eigen::Vector2d way = moved / size;
  out.predicted = threshold * way;
  // The exact derivative is (tau I - f way^T)/|dq|; its symmetric part is positive semidefinite while |f| <= tau.
  const Eigen::Matrix2d cross = clip(force, threshold) * way.transpose();
  out.stiffness = (threshold * Eigen::Matrix2d::Identity() - 0.5 * (cross + cross.transpose())) / size;
  return out;
}

}  // namespace evenpull::inline solver
