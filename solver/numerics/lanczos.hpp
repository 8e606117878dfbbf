// The largest eigenvalues of A x = mu T x, A symmetric and T symmetric positive definite, both known by what they do to
// a vector: Lanczos steps in the inner product of T with full reorthogonalisation (Golub and Van Loan, Matrix
// Computations, chapter on Lanczos methods, from memory). One start vector sees one copy of a multiple eigenvalue, so
// what was found is locked and the rest searched again until it holds nothing larger. Ours stays because a general library
// (Spectra) takes 1.5 to 2.9 times as long on the same operator, as many solutions included (bench/RECORD.md), and does not
// search again for further copies.
#pragma once

#include <Eigen/Core>

#include <functional>
#include <limits>
#include <vector>

namespace evenpull::inline solver {

/// A, T and the inverse of T at work on a vector.
struct SymmetricPencil {
  using Work = std::function<Eigen::VectorXd(const Eigen::VectorXd&)>;
  int size = 0;
  Work times_a, times_t, solve_t;
};

struct EigenPair {
  double value = 0;
  Eigen::VectorXd vector;  ///< x' T x = 1
  double residual = 0;  ///< |A x - mu T x| in the norm of the inverse of T, over |mu|: bounds the relative error of mu
};

struct LanczosOptions {
  int count = 1;                                                 ///< how many pairs
  double tolerance = 1e-9;                                       ///< residual at which a pair counts as found
  int most_steps = 300;                                          ///< of one search
  double none_below = -std::numeric_limits<double>::infinity();  ///< a search ends when the largest lies below this
};

/// Fixed, without symmetry, so that no mode is missed by being orthogonal to it; another one for each number. A linear
/// congruential sequence (constants of Park and Miller) keeps it the same everywhere.
Eigen::VectorXd chance_vector(int size, int number);

/// The `count` largest eigenvalues in falling order, multiple ones as often as they occur; fewer where A has no more
/// that differ from zero. A search that did not come to the tolerance ends it all: look at every residual before use.
/// The same from run to run.
std::vector<EigenPair> largest_pairs(const SymmetricPencil& p, const LanczosOptions& options);

/// One search from `start` and no other, for those who prove by other means that nothing larger was missed: one copy
/// of a multiple eigenvalue, and nothing that `start` has no part of.
std::vector<EigenPair> largest_from(const SymmetricPencil& p, const Eigen::VectorXd& start,
                                    const LanczosOptions& options);

}  // namespace evenpull::inline solver
