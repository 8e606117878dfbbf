// Numeric Cholesky factorisation along a FrontPlan, A = L L^T, and solution with it.
#pragma once

#include "solver/numerics/front_plan.hpp"

#include <memory>
#include <vector>

namespace evenpull::inline solver {

class FrontFactor {
 public:
  explicit FrontFactor(std::shared_ptr<const FrontPlan> plan);
  /// `values` of the matrix whose pattern the plan was made from; false when it is not positive definite.
  bool factorise(const double* values);
  /// Solves A x = b with the last factor; both have as many values as the matrix columns and may be the same.
  void solve(const double* b, double* x);

 private:
  void take_entries(int front, const double* values);
  void take_children(int front, bool of_panel);
  std::shared_ptr<const FrontPlan> plan_;
  std::vector<double> factor_, stack_, work_, ordered_;
};

}  // namespace evenpull::inline solver
