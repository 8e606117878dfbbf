// Least buckling factor: a Lanczos search in the inner product of the tangent finds it, inverse iteration polishes it,
// a Cholesky factor just below proves that it is the least.
//   (K_e + lambda K_G) phi = 0,  T = K_e + K_G   =>   -K_G phi = mu T phi,  lambda = 1 + 1/mu,  mu the largest
// T + s K_G with s = lambda - 1 from 0 is positive definite up to the first factor and never again beyond it, since it
// is a mean of T and of any later one that would be.
#include "solver/equilibrium/buckling.hpp"

#include "solver/numerics/lanczos.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr int most_steps = 200;
// Residual of what the search hands on. The error of mu goes with the square of it: far below least_margin, which has
// to lie under the true factor.
constexpr double found_to = 1e-4;
constexpr int most_polish = 12, most_proofs = 60;
constexpr double polished_to = 1e-9;

Eigen::VectorXd free_chance_vector(int size, const std::vector<int>& held, int number) {
  Eigen::VectorXd v = chance_vector(size, number);
  for (int i : held) v[i] = 0;
  return v;
}

// The eigenproblem with the best answer so far.
class Search {
 public:
  Search(const BucklingPair& pair, LinearSolver& tangent_factor, const Eigen::VectorXd& start)
      : tangent_(pair.tangent),
        geometric_(pair.geometric),
        factor_(tangent_factor),
        held_(pair.held),
        shifted_matrix_(pair.tangent),
        mode_(start) {
    shifted_.use(pair.analysis);
  }

  Buckling run() {
    search();
    return proven();
  }

 private:
  Eigen::VectorXd times(const Sparse& k, const Eigen::VectorXd& x) const {
    return k.selfadjointView<Eigen::Lower>() * x;
  }
  void hold(Eigen::VectorXd& x) const {
    for (int i : held_) x[i] = 0;
  }

  void search() {
    SymmetricPencil p;
    p.size = static_cast<int>(mode_.size());
    p.times_a = [&](const Eigen::VectorXd& x) -> Eigen::VectorXd { return -times(geometric_, x); };
    p.times_t = [&](const Eigen::VectorXd& x) -> Eigen::VectorXd { return times(tangent_, x); };
    p.solve_t = [&](const Eigen::VectorXd& b) {
      Eigen::VectorXd x;
      factor_.solve(b, x);
      hold(x);
      return x;
    };
    LanczosOptions options;
    options.tolerance = found_to;
    options.most_steps = most_steps;
    options.none_below = least_mu;
    for (EigenPair& largest : largest_from(p, mode_, options)) {
      mu_ = largest.value;
      mode_ = std::move(largest.vector);
    }
  }

  bool stands_at(double s) {
    for (Eigen::Index k = 0; k < shifted_matrix_.nonZeros(); ++k)
      shifted_matrix_.valuePtr()[k] = tangent_.valuePtr()[k] + s * geometric_.valuePtr()[k];
    return shifted_.factorise(shifted_matrix_);
  }

  // Inverse iteration with the factor of T + s K_G, s just below the least lambda - 1.
  void polish() {
    for (int round = 0; round < most_polish; ++round) {
      Eigen::VectorXd y;
      shifted_.solve(times(tangent_, mode_), y);
      hold(y);
      Eigen::VectorXd ty = times(tangent_, y);
      const double size = std::sqrt(y.dot(ty));
      mode_ = y / size;
      ty /= size;
      const Eigen::VectorXd w = -times(geometric_, mode_);
      mu_ = mode_.dot(w);
      Eigen::VectorXd r = w - mu_ * ty, z;
      hold(r);
      factor_.solve(r, z);
      residual_ = std::sqrt(std::max(0.0, r.dot(z))) / std::abs(mu_);
      if (residual_ <= polished_to) return;
    }
  }

  Buckling proven() {
    Buckling out;
    double stands = 0, falls = most_factor - 1, trial = mu_ > least_mu ? (1 - least_margin) / mu_ : falls;
    for (int round = 0; round < most_proofs; ++round) {
      if (!stands_at(trial)) {
        // Something was missed below: halve, and let what was missed into the next guess.
        falls = trial;
        trial = 0.5 * (stands + falls);
        const Eigen::VectorXd other = free_chance_vector(static_cast<int>(mode_.size()), held_, 1);
        mode_ += other / std::sqrt(other.dot(times(tangent_, other)));
        continue;
      }
      stands = trial;
      if (stands >= most_factor - 1) return out;
      polish();
      trial = mu_ > least_mu ? (1 - least_margin) / mu_ : most_factor - 1;
      if (trial > stands * (1 + least_margin)) {
        if (trial >= falls) trial = 0.5 * (stands + falls);
        continue;
      }
      out.factor = 1 + 1 / mu_;
      out.mode = mode_;
      out.residual = residual_;
      return out;
    }
    // Not to the margin, but no factor lies below what stands: the safe side of the answer.
    out.factor = 1 + stands;
    out.mode = mode_;
    out.residual = residual_;
    out.least_proven = false;
    return out;
  }

  static constexpr double least_mu = 1 / (most_factor - 1);
  const Sparse &tangent_, &geometric_;
  LinearSolver& factor_;
  const std::vector<int>& held_;
  Sparse shifted_matrix_;
  LinearSolver shifted_;
  Eigen::VectorXd mode_;
  double mu_ = 0, residual_ = 0;
};

// Largest translation of a joint or node 1 m, its largest component (the first of equals) positive.
void scale_mode(const Model& m, Eigen::VectorXd& mode) {
  constexpr double as_large = 1 - 1e-6;  // rounding must not choose between mirror images
  std::vector<Eigen::Vector3d> moves;
  for (std::size_t j = 0; j < m.panel.joints.size(); ++j) moves.push_back(mode.segment<3>(6 * static_cast<int>(j)));
  for (const NodeMap& n : m.unknowns.nodes) moves.push_back(displacement(n, mode));
  double length = 0, component = 0;
  for (const Eigen::Vector3d& u : moves) {
    length = std::max(length, u.norm());
    component = std::max(component, u.cwiseAbs().maxCoeff());
  }
  if (!(length > 0)) return;
  for (const Eigen::Vector3d& u : moves)
    for (int k = 0; k < 3; ++k)
      if (std::abs(u[k]) >= as_large * component) {
        mode /= u[k] > 0 ? length : -length;
        return;
      }
}

}  // namespace

Buckling least_buckling(const BucklingPair& pair, LinearSolver& factor, const Eigen::VectorXd& start) {
  return Search(pair, factor, start).run();
}

Buckling buckling_of(const Model& m, const BucklingPair& pair, LinearSolver& factor) {
  Buckling out = least_buckling(pair, factor, free_chance_vector(m.unknowns.count, pair.held, 0));
  if (out.mode.size() > 0) scale_mode(m, out.mode);
  return out;
}

}  // namespace evenpull::inline solver
