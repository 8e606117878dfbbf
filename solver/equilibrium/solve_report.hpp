// What a solve says of itself.
#pragma once

#include "solver/statement/errors.hpp"

namespace evenpull::inline solver {

/// What an answer has to pass before it is accepted.
enum class Test { balance, law, smoothing, friction, certainty };

struct SolveReport {
  bool converged = false;
  bool stable = true;  ///< the tangent stayed positive definite
  int iterations = 0;
  double residual = 0;         ///< N
  double tension_change = 0;   ///< N/m
  double threshold_error = 0;  ///< of friction
  double tension_bound = 0;    ///< N/m rms, from the duality gap
  double gap = 0;              ///< duality gap of the convex problem at the friction thresholds of the answer [N m]
  double friction_gap = 0;     ///< the share of sliding points in it [N m]
  double energy = 0;           ///< 1/2 N:C:N of the cloth + the frame's strain energy [N m]: what to measure the gap by
  Test failed = Test::balance;  ///< where it did not converge: the test that was missed by the largest factor
  Missed missed;                ///< and its numbers
};

}  // namespace evenpull::inline solver
