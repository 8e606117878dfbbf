// Unknowns that supports hold: no force is out of balance there, and the tangent leaves them where they are.
#pragma once

#include "solver/equilibrium/model.hpp"

#include <Eigen/Core>

namespace evenpull::inline solver {

/// Zero where the supports hold.
void hold(const Model& m, Held h, Eigen::VectorXd& residual);

/// Rows and columns of what is held: nothing but one number on the diagonal. Lower triangle, pattern of Model::pattern.
void hold(const Model& m, Held h, Sparse& tangent);

}  // namespace evenpull::inline solver
