#include "solver/linear_solver.hpp"

#ifdef EVENPULL_WITH_CHOLMOD
#include <suitesparse/cholmod.h>

#include <cstring>
#else
#include <Eigen/SparseCholesky>
#endif

namespace evenpull {

#ifdef EVENPULL_WITH_CHOLMOD

struct LinearSolver::Inside {
  cholmod_common common;
  cholmod_factor* factor = nullptr;
  cholmod_dense* x = nullptr;
  cholmod_dense* y = nullptr;
  cholmod_dense* e = nullptr;
  Inside() {
    cholmod_start(&common);
    // AMD alone: other orderings brought nothing on these meshes and cost analysis time.
    common.nmethods = 1;
    common.method[0].ordering = CHOLMOD_AMD;
    common.postorder = 1;
    common.supernodal = CHOLMOD_SUPERNODAL;
    common.quick_return_if_not_posdef = 1;
    common.print = 0;
    common.error_handler = nullptr;
  }
  ~Inside() {
    cholmod_free_dense(&x, &common);
    cholmod_free_dense(&y, &common);
    cholmod_free_dense(&e, &common);
    cholmod_free_factor(&factor, &common);
    cholmod_finish(&common);
  }
  static cholmod_sparse view(const Sparse& a) {
    cholmod_sparse s;
    std::memset(&s, 0, sizeof s);
    s.nrow = static_cast<std::size_t>(a.rows());
    s.ncol = static_cast<std::size_t>(a.cols());
    s.nzmax = static_cast<std::size_t>(a.nonZeros());
    s.p = const_cast<int*>(a.outerIndexPtr());
    s.i = const_cast<int*>(a.innerIndexPtr());
    s.x = const_cast<double*>(a.valuePtr());
    s.stype = -1;
    s.itype = CHOLMOD_INT;
    s.xtype = CHOLMOD_REAL;
    s.dtype = CHOLMOD_DOUBLE;
    s.sorted = 1;
    s.packed = 1;
    return s;
  }
};

void LinearSolver::analyse(const Sparse& lower) {
  cholmod_sparse a = Inside::view(lower);
  cholmod_free_factor(&in_->factor, &in_->common);
  in_->factor = cholmod_analyze(&a, &in_->common);
}

bool LinearSolver::factorise(const Sparse& lower) {
  cholmod_sparse a = Inside::view(lower);
  cholmod_factorize(&a, in_->factor, &in_->common);
  return in_->common.status == CHOLMOD_OK && in_->factor->minor == in_->factor->n;
}

void LinearSolver::solve(const Eigen::VectorXd& b, Eigen::VectorXd& x) {
  cholmod_dense rhs;
  std::memset(&rhs, 0, sizeof rhs);
  rhs.nrow = static_cast<std::size_t>(b.size());
  rhs.ncol = 1;
  rhs.nzmax = rhs.nrow;
  rhs.d = rhs.nrow;
  rhs.x = const_cast<double*>(b.data());
  rhs.xtype = CHOLMOD_REAL;
  rhs.dtype = CHOLMOD_DOUBLE;
  cholmod_solve2(CHOLMOD_A, in_->factor, &rhs, nullptr, &in_->x, nullptr, &in_->y, &in_->e, &in_->common);
  x = Eigen::Map<const Eigen::VectorXd>(static_cast<const double*>(in_->x->x), b.size());
}

#else

struct LinearSolver::Inside {
  Eigen::SimplicialLLT<Sparse, Eigen::Lower, Eigen::AMDOrdering<int>> llt;
};

void LinearSolver::analyse(const Sparse& lower) { in_->llt.analyzePattern(lower); }

bool LinearSolver::factorise(const Sparse& lower) {
  in_->llt.factorize(lower);
  return in_->llt.info() == Eigen::Success;
}

void LinearSolver::solve(const Eigen::VectorXd& b, Eigen::VectorXd& x) { x = in_->llt.solve(b); }

#endif

LinearSolver::LinearSolver() : in_(std::make_unique<Inside>()) {}
LinearSolver::~LinearSolver() = default;
LinearSolver::LinearSolver(LinearSolver&&) noexcept = default;
LinearSolver& LinearSolver::operator=(LinearSolver&&) noexcept = default;

}  // namespace evenpull
