// Our own factorisation; linear_solver_cholmod.cpp is the other choice.
#ifndef EVENPULL_WITH_CHOLMOD
#include "solver/numerics/linear_solver.hpp"

#include "solver/numerics/front_factor.hpp"

#include <optional>

namespace evenpull::inline solver {

struct LinearSolver::Analysis {
  FrontPlan plan;
};

struct LinearSolver::Inside {
  std::optional<FrontFactor> factor;
};

std::shared_ptr<const LinearSolver::Analysis> LinearSolver::study(const Sparse& lower) {
  return std::make_shared<const Analysis>(Analysis{FrontPlan(lower)});
}

void LinearSolver::use(std::shared_ptr<const Analysis> analysis) {
  const FrontPlan* plan = &analysis->plan;
  in_->factor.emplace(std::shared_ptr<const FrontPlan>(std::move(analysis), plan));
}

bool LinearSolver::factorise(const Sparse& lower) { return in_->factor->factorise(lower.valuePtr()); }

void LinearSolver::solve(const Eigen::VectorXd& b, Eigen::VectorXd& x) {
  x.resize(b.size());
  in_->factor->solve(b.data(), x.data());
}

LinearSolver::LinearSolver() : in_(std::make_unique<Inside>()) {}
LinearSolver::~LinearSolver() = default;
LinearSolver::LinearSolver(LinearSolver&&) noexcept = default;
LinearSolver& LinearSolver::operator=(LinearSolver&&) noexcept = default;

}  // namespace evenpull::inline solver
#endif
