// Friction thresholds of the sliding points while a solve goes on: docs/model.md, section 6.
#pragma once

#include "solver/cloth/quads.hpp"
#include "solver/equilibrium/model.hpp"

#include <Eigen/Core>

#include <vector>

namespace evenpull::inline solver {

/// By which a sliding point has moved from one vector of unknowns to the other [m]; the second is 0 where it has but one.
Eigen::Vector2d slip_between(const SlidingPoint& p, const Eigen::VectorXd& from, const Eigen::VectorXd& to);

/// One threshold [N] for each of Unknowns::sliding. They follow the nodal forces from iteration to iteration.
class SlidingThresholds {
 public:
  explicit SlidingThresholds(const Model& m);

  /// Before a solve: what one before it left behind must not change an answer, for who solved before hangs on the threads.
  void forget();
  /// Takes the thresholds that these nodal forces [N] ask for in iteration `iteration` of the solve, or hastens there.
  void follow(const std::vector<Padded>& force, int iteration);

  double in_use(std::size_t point) const { return in_use_[static_cast<Eigen::Index>(point)]; }
  double asked(std::size_t point) const { return asked_[static_cast<Eigen::Index>(point)]; }

 private:
  double asked_by(const std::vector<Padded>& force, const SlidingPoint& p) const;

  const Model& model_;
  // In use, what the forces ask for, what they asked for beyond those in use and did before.
  Eigen::VectorXd in_use_, asked_, change_, last_change_;
  double ratio_ = 0;    // of the last two changes
  int since_jump_ = 0;  // iterations
};

}  // namespace evenpull::inline solver
