// Sparse Cholesky factorisation behind one door: CHOLMOD's supernodal code where it was built in, Eigen's otherwise.
#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include <memory>

namespace evenpull {

using Sparse = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;

class LinearSolver {
 public:
  LinearSolver();
  ~LinearSolver();
  LinearSolver(LinearSolver&&) noexcept;
  LinearSolver& operator=(LinearSolver&&) noexcept;

  /// Orders and analyses the pattern of a symmetric matrix, of which the lower triangle is stored.
  void analyse(const Sparse& lower);
  /// Factorises; false when the matrix is not positive definite.
  bool factorise(const Sparse& lower);
  /// Solves A x = b with the last factor.
  void solve(const Eigen::VectorXd& b, Eigen::VectorXd& x);

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

}  // namespace evenpull
