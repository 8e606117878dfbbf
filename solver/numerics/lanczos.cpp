#include "solver/numerics/lanczos.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr int check_every = 5;
// What is left of a vector, or of the largest eigenvalue, at or below this share is rounding: there is no more to find.
constexpr double used_up = 1e-12;
// Two eigenvalues that differ by less count as one value: well above the rounding of a search.
constexpr double same = 1e-7;

// Directions orthonormal in T, each with its image under T.
struct Basis {
  std::vector<Eigen::VectorXd> direction, image;
  // Twice: once leaves as much as rounding made of what was taken away.
  void take_out_of(Eigen::VectorXd& v) const {
    for (int round = 0; round < 2; ++round)
      for (std::size_t i = 0; i < direction.size(); ++i) v -= v.dot(image[i]) * direction[i];
  }
};

// Residual of a pair against the two matrices themselves, whatever the recurrence says.
double true_residual(const SymmetricPencil& p, const EigenPair& pair, const Eigen::VectorXd& t_vector) {
  const Eigen::VectorXd r = p.times_a(pair.vector) - pair.value * t_vector;
  return std::sqrt(std::max(0.0, r.dot(p.solve_t(r)))) / std::abs(pair.value);
}

class Search {
 public:
  Search(const SymmetricPencil& p, const Basis& locked) : p_(p), locked_(locked) {}

  // Up to `count` largest pairs of what is orthogonal to what is locked; `largest`: of the eigenvalues known so far.
  std::vector<EigenPair> run(const Eigen::VectorXd& start, int count, double largest, const LanczosOptions& options) {
    // A start in the range of A holds nothing of what A does not see.
    Eigen::VectorXd w = p_.times_a(start);
    Eigen::VectorXd v = p_.solve_t(w);
    for (int k = 0; k < std::min(options.most_steps, p_.size); ++k) {
      const double whole = std::sqrt(std::max(0.0, v.dot(w)));
      locked_.take_out_of(v);
      basis_.take_out_of(v);
      const Eigen::VectorXd tv = p_.times_t(v);
      const double size = std::sqrt(std::max(0.0, v.dot(tv)));
      if (size <= used_up * whole) break;
      if (k > 0 && k % check_every == 0 && settled(count, size, options)) break;
      if (k > 0) beta_.push_back(size);
      basis_.direction.push_back(v / size);
      basis_.image.push_back(tv / size);
      w = p_.times_a(basis_.direction.back());
      alpha_.push_back(w.dot(basis_.direction.back()));
      v = p_.solve_t(w);
    }
    return pairs(count, largest);
  }

 private:
  int steps() const { return static_cast<int>(alpha_.size()); }

  Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> small_problem() const {
    Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> e;
    e.computeFromTridiagonal(Eigen::Map<const Eigen::VectorXd>(alpha_.data(), steps()),
                             Eigen::Map<const Eigen::VectorXd>(beta_.data(), steps() - 1));
    return e;
  }

  // Residual of a pair = what the next direction, `next` long before it is made one, adds to it.
  bool settled(int count, double next, const LanczosOptions& options) const {
    if (steps() < count) return false;
    const auto e = small_problem();
    const auto residual = [&](int i) { return next * std::abs(e.eigenvectors()(steps() - 1, i)); };
    if (e.eigenvalues()[steps() - 1] + residual(steps() - 1) < options.none_below) return true;
    for (int i = steps() - count; i < steps(); ++i)
      if (residual(i) > 0.1 * options.tolerance * std::abs(e.eigenvalues()[i])) return false;
    return true;
  }

  std::vector<EigenPair> pairs(int count, double largest) const {
    std::vector<EigenPair> out;
    if (steps() == 0) return out;
    const auto e = small_problem();
    largest = std::max(largest, e.eigenvalues().cwiseAbs().maxCoeff());
    for (int i = steps() - 1; i >= std::max(0, steps() - count); --i) {
      // What is left when the space is used up is the zeros of A.
      if (std::abs(e.eigenvalues()[i]) <= used_up * largest) break;
      EigenPair pair;
      pair.value = e.eigenvalues()[i];
      pair.vector = Eigen::VectorXd::Zero(p_.size);
      for (int j = 0; j < steps(); ++j) pair.vector += e.eigenvectors()(j, i) * basis_.direction[j];
      const Eigen::VectorXd t_vector = p_.times_t(pair.vector);
      pair.vector /= std::sqrt(pair.vector.dot(t_vector));
      pair.residual = true_residual(p_, pair, p_.times_t(pair.vector));
      out.push_back(pair);
    }
    return out;
  }

  const SymmetricPencil& p_;
  const Basis& locked_;
  Basis basis_;
  std::vector<double> alpha_, beta_;
};

}  // namespace

Eigen::VectorXd chance_vector(int size, int number) {
  Eigen::VectorXd v(size);
  long long seed = 20011 + 7919LL * number;
  for (int i = 0; i < size; ++i) {
    seed = seed * 48271 % 2147483647;
    v[i] = static_cast<double>(seed) / 2147483647.0 - 0.5;
  }
  return v;
}

std::vector<EigenPair> largest_from(const SymmetricPencil& p, const Eigen::VectorXd& start,
                                    const LanczosOptions& options) {
  const Basis nothing;
  return Search(p, nothing).run(start, options.count, 0, options);
}

std::vector<EigenPair> largest_pairs(const SymmetricPencil& p, const LanczosOptions& options) {
  Basis locked;
  std::vector<EigenPair> found;
  const auto fails = [&](const std::vector<EigenPair>& pairs) {
    return std::any_of(pairs.begin(), pairs.end(), [&](const EigenPair& e) { return e.residual > options.tolerance; });
  };
  for (int number = 0;; ++number) {
    const int missing = std::max(1, options.count - static_cast<int>(found.size()));
    const double largest = found.empty() ? 0 : std::abs(found.front().value);
    const std::vector<EigenPair> more = Search(p, locked).run(chance_vector(p.size, number), missing, largest, options);
    if (more.empty()) break;
    const bool full = static_cast<int>(found.size()) >= options.count;
    if (full && more.front().value <= found.back().value * (1 + same)) break;
    for (const EigenPair& e : more) {
      locked.direction.push_back(e.vector);
      locked.image.push_back(p.times_t(e.vector));
      found.push_back(e);
    }
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.value > b.value; });
    if (fails(more)) break;
  }
  if (static_cast<int>(found.size()) > options.count) found.resize(options.count);
  return found;
}

}  // namespace evenpull::inline solver
