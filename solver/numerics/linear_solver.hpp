// Sparse Cholesky factorisation behind one door: our own, front by front, or CHOLMOD's where it was built in instead. Ours
// stays because it takes 0.26 to 0.55 of CHOLMOD's time, and the whole job on the normal mesh 2.6 to 2.8 times less than with
// CHOLMOD at its best (bench/RECORD.md).
#pragma once

#include "solver/numerics/elimination.hpp"

#include <Eigen/Core>

#include <memory>

namespace evenpull::inline solver {

class LinearSolver {
 public:
  LinearSolver();
  ~LinearSolver();
  LinearSolver(LinearSolver&&) noexcept;
  LinearSolver& operator=(LinearSolver&&) noexcept;

  /// What is decided from a pattern alone; any number of solvers, in any number of threads, may share it.
  struct Analysis;
  /// Orders and analyses the pattern of a symmetric matrix, of which the lower triangle is stored.
  static std::shared_ptr<const Analysis> study(const Sparse& lower);

  void use(std::shared_ptr<const Analysis> analysis);
  void analyse(const Sparse& lower) { use(study(lower)); }
  /// Factorises a matrix of the pattern analysed; false when it is not positive definite.
  bool factorise(const Sparse& lower);
  /// Solves A x = b with the last factor.
  void solve(const Eigen::VectorXd& b, Eigen::VectorXd& x);

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

}  // namespace evenpull::inline solver
