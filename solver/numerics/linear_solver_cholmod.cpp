// CHOLMOD's supernodal factorisation, to compare our own with (-D EVENPULL_WITH_CHOLMOD=ON).
#ifdef EVENPULL_WITH_CHOLMOD
#include "solver/numerics/linear_solver.hpp"

#include <suitesparse/cholmod.h>

#ifdef EVENPULL_WITH_OPENMP
#include <omp.h>
#endif

#include <cstring>

namespace evenpull::inline solver {

// CHOLMOD keeps no analysis apart from a factor, so each solver analyses the pattern for itself.
struct LinearSolver::Analysis {
  Sparse pattern;
};

struct LinearSolver::Inside {
  cholmod_common common;
  cholmod_factor* factor = nullptr;
  cholmod_dense* x = nullptr;
  cholmod_dense* y = nullptr;
  cholmod_dense* e = nullptr;
  Inside() {
#ifdef EVENPULL_WITH_OPENMP
    // CHOLMOD asks for four threads by name whatever the environment says; on matrices of this size they only wait for
    // each other. The setting belongs to the calling thread.
    omp_set_max_active_levels(0);
#endif
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

std::shared_ptr<const LinearSolver::Analysis> LinearSolver::study(const Sparse& lower) {
  return std::make_shared<const Analysis>(Analysis{lower});
}

void LinearSolver::use(std::shared_ptr<const Analysis> analysis) {
  cholmod_sparse a = Inside::view(analysis->pattern);
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

LinearSolver::LinearSolver() : in_(std::make_unique<Inside>()) {}
LinearSolver::~LinearSolver() = default;
LinearSolver::LinearSolver(LinearSolver&&) noexcept = default;
LinearSolver& LinearSolver::operator=(LinearSolver&&) noexcept = default;

}  // namespace evenpull::inline solver
#endif
