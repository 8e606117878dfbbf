// Least buckling factor by the Lanczos method in the inner product of the tangent (Golub and Van Loan, Matrix
// Computations, chapter on Lanczos methods, from memory), with full reorthogonalisation.
//   (K_e + lambda K_G) phi = 0,  T = K_e + K_G   =>   -K_G phi = mu T phi,  lambda = 1 + 1/mu,  mu the largest
#include "solver/equilibrium.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenpull {
namespace {

constexpr int most_steps = 120;
constexpr int check_every = 10;
constexpr double settled_to = 1e-5;  // relative change of mu at which it counts as found

// Fixed start without symmetry, so that no mode is missed by being orthogonal to it; a linear congruential sequence
// (constants of Park and Miller) keeps it the same everywhere.
Eigen::VectorXd start_vector(int n, const std::vector<int>& held) {
  Eigen::VectorXd v(n);
  long long seed = 20011;
  for (int i = 0; i < n; ++i) {
    seed = seed * 48271 % 2147483647;
    v[i] = static_cast<double>(seed) / 2147483647.0 - 0.5;
  }
  for (int i : held) v[i] = 0;
  return v;
}

}  // namespace

double Equilibrium::buckling_factor(const Covering& s, Eigen::VectorXd* mode) {
  // Sliding is left free here: friction would only hold the mode back.
  tangent(s);
  if (!linear_.factorise(matrix_)) return 1.0;

  Sparse geometric = model_.pattern;
  std::fill_n(geometric.valuePtr(), geometric.nonZeros(), 0.0);
  std::fill(blocks_.begin(), blocks_.end(), NodeBlock{});
  for (std::size_t q = 0; q < model_.shapes.size(); ++q) {
    Eigen::Matrix4d between = Eigen::Matrix4d::Zero();  // of the quad's corners, times the identity
    for (int c = 0; c < 4; ++c) {
      const Eigen::Matrix3d geo = geometric_stiffness(model_.triangles[4 * q + c], s.tension[4 * q + c].pull);
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j) between(triangle_corners[c][i], triangle_corners[c][j]) += geo(i, j);
    }
    for (int k = 0; k < 6; ++k)
      for (int d : {0, 4, 8})
        blocks_[model_.tangent.of_quads()[q][k]][d] += between(quad_pairs[k][0], quad_pairs[k][1]);
  }
  model_.tangent.add(blocks_, own_blocks_, geometric.valuePtr());
  std::vector<BeamMatrix> beams;
  for (std::size_t b = 0; b < frame_.size(); ++b) beams.push_back(frame_[b] - model_.beam_elastic[b]);
  add_frame(beams, geometric.valuePtr());
  for (int at : model_.held_positions[static_cast<int>(s.held)]) geometric.valuePtr()[at] = 0;

  const auto& held = model_.held[static_cast<int>(s.held)];
  std::vector<Eigen::VectorXd> basis, image;  // v_k and T v_k
  std::vector<double> alpha, beta;
  Eigen::VectorXd v = start_vector(model_.unknowns.count, held);
  Eigen::VectorXd tv = matrix_.selfadjointView<Eigen::Lower>() * v;
  double size = std::sqrt(v.dot(tv)), last = -1, found = 0;
  Eigen::VectorXd shape;
  for (int k = 0; k < std::min(most_steps, model_.unknowns.count); ++k) {
    basis.push_back(v / size);
    image.push_back(tv / size);
    Eigen::VectorXd w = -(geometric.selfadjointView<Eigen::Lower>() * basis.back());
    alpha.push_back(w.dot(basis.back()));
    linear_.solve(w, v);
    for (int i : held) v[i] = 0;
    for (int round = 0; round < 2; ++round)
      for (std::size_t i = 0; i < basis.size(); ++i) v -= v.dot(image[i]) * basis[i];
    tv = matrix_.selfadjointView<Eigen::Lower>() * v;
    size = std::sqrt(std::max(0.0, v.dot(tv)));
    beta.push_back(size);
    const bool ended = size < 1e-12;
    if (!ended && (k + 1) % check_every != 0) continue;
    const int n = k + 1;
    Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen;
    eigen.computeFromTridiagonal(Eigen::Map<Eigen::VectorXd>(alpha.data(), n),
                                 Eigen::Map<Eigen::VectorXd>(beta.data(), n - 1));
    found = eigen.eigenvalues()[n - 1];
    shape = eigen.eigenvectors().col(n - 1);
    if (ended || std::abs(found - last) <= settled_to * std::abs(found)) break;
    last = found;
  }
  if (mode && shape.size() > 0) {
    *mode = Eigen::VectorXd::Zero(model_.unknowns.count);
    for (int i = 0; i < shape.size(); ++i) *mode += shape[i] * basis[i];
  }
  return found > 0 ? 1 + 1 / found : std::numeric_limits<double>::infinity();
}

}  // namespace evenpull
