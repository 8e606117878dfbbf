// What the buckling problem of a covered frame has for an answer (docs/model.md, section 5).
#pragma once

#include "solver/equilibrium/model.hpp"
#include "solver/numerics/linear_solver.hpp"

#include <Eigen/Core>

#include <limits>
#include <memory>
#include <vector>

namespace evenpull::inline solver {

/// (K_e + factor K_G) mode = 0: cloth pull and member compression together times `factor`, and the structure bows into
/// `mode` by nothing.
struct Buckling {
  double factor = std::numeric_limits<double>::infinity();  ///< infinite: nothing buckles below `most_factor`
  /// All unknowns; the largest translation of a joint or cloth node is 1 m, the largest component of any of them
  /// positive. Empty where nothing buckles or the state itself does not stand.
  Eigen::VectorXd mode;
  /// Some factor lies within this share of factor - 1: |-K_G mode - mu T mode| in the norm of T^-1, over mu |mode| in
  /// that of T, with T = K_e + K_G and mu = 1/(factor - 1).
  double residual = 0;
  /// No factor lies below 1 + (factor - 1)(1 - least_margin): K_e + K_G up to there has a Cholesky factor, so no
  /// eigenvalue has changed sign on the way (Sylvester's law of inertia).
  bool least_proven = true;
};

/// A factor beyond this counts as none: the structure is as good as untouched by the cloth.
inline constexpr double most_factor = 1e5;
inline constexpr double least_margin = 1e-6;

/// The pair of matrices: lower triangles in one pattern, rows and columns of `held` unknowns zero in `geometric`.
struct BucklingPair {
  const Sparse& tangent;    ///< T, positive definite
  const Sparse& geometric;  ///< K_G
  const std::vector<int>& held;
  std::shared_ptr<const LinearSolver::Analysis> analysis;  ///< of the pattern
};

/// Answer with the mode as it comes, neither scaled nor signed. `factor` holds the factorisation of T. The search
/// begins at `start`, zero where held; whatever it misses the proof brings to light.
Buckling least_buckling(const BucklingPair& pair, LinearSolver& factor, const Eigen::VectorXd& start);

/// The same for a covered frame, from a start that favours no shape; its mode scaled and signed.
Buckling buckling_of(const Model& m, const BucklingPair& pair, LinearSolver& factor);

}  // namespace evenpull::inline solver
