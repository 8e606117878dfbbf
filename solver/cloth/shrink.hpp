// Heat shrink as a function of the true temperature: free shrink, and pull at fixed length (docs/model.md,
// section 3). Interpolation is monotone in temperature and never goes beyond the hottest point.
#pragma once

#include "solver/cloth/fabric_law.hpp"
#include "solver/statement/case.hpp"

namespace evenpull::inline solver {

/// Engineering looseness x of the cloth (1 % = 0.01) as Green-Lagrange strain: ((1 + x)^2 - 1)/2.
double looseness_strain(double engineering);

/// Engineering shrink y (10 % = 0.10) as Green-Lagrange strain: (1 - (1 - y)^2)/2.
double shrink_strain(double engineering);

/// Free shrink [strain] and limiting pull Nc [N/m] of both yarn directions at a true temperature [K].
struct ShrinkState {
  double free_shrink[2] = {0, 0};
  double limit_pull[2] = {0, 0};
  double fixed_length_pull[2] = {0, 0};  ///< P
};

/// s_inf(T) and Nc_d = P_d / (1 - (C P)_d / s_inf,d). Below the onset nothing shrinks (all zero).
/// Throws CaseError (key "cloth.curve") when (C P)_d >= s_inf,d: such a cloth could not reach its own pull.
ShrinkState shrink_at(const Cloth& cloth, const Eigen::Matrix3d& compliance, double temperature);

}  // namespace evenpull::inline solver
