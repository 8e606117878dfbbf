// A quarter of a round piece of cloth between its planes of mirror symmetry, in regular quads: a square block round the
// centre and a ring of quads from there to the rim. No quad degenerates anywhere, so that second order can be seen.
#pragma once

#include "tests/support/cloth_patch.hpp"

#include <cmath>
#include <functional>
#include <vector>

namespace evenpull::published {

class QuarterDisc {
 public:
  /// 3 n^2 quads on x >= 0, y >= 0; the rim lies at `radius` [m]. Mirror planes are held, the rim is held all ways.
  QuarterDisc(const check::PatchCloth& cloth, double radius, int n) : patch(cloth), n_(n), radius_(radius) {
    patch.add_grid(n, n, [&](double u, double v) { return block(u, v); });
    for (int layer = 1; layer <= n; ++layer)
      for (int key = 0; key <= 2 * n; ++key) patch.add_node(ring(layer, column_of(key)));
    for (int layer = 0; layer < n; ++layer)
      for (int j = 0; j < 2 * n; ++j)
        patch.add_quad({node(layer, j), node(layer + 1, j), node(layer + 1, j + 1), node(layer, j + 1)});
    for (int i = 0; i <= n; ++i) {
      patch.hold_node(i, 0);
      patch.hold_node(i * (n + 1), 1);
    }
    for (int layer = 1; layer <= n; ++layer) {
      patch.hold_node(node(layer, 0), 1);
      patch.hold_node(node(layer, 2 * n), 0);
    }
    for (int j = 0; j <= 2 * n; ++j)
      for (int k = 0; k < 3; ++k) patch.hold_node(node(n, j), k);
  }

  /// Node of the ring, layer 0 (the block's outline) to n (the rim), column 0 (on x) to 2n (on y).
  int node(int layer, int column) const {
    if (layer == 0) return column <= n_ ? n_ * (n_ + 1) + column : (2 * n_ - column) * (n_ + 1) + n_;
    const int key = column > n_ ? 2 * n_ - column : n_ + column;
    return (n_ + 1) * (n_ + 1) + (layer - 1) * (2 * n_ + 1) + key;
  }
  /// Numbers of quads, i along x and j along y, layer and column as above.
  int block_quad(int i, int j) const { return i * n_ + j; }
  int ring_quad(int layer, int column) const { return n_ * n_ + layer * 2 * n_ + column; }
  /// Middle of a quad [m].
  Eigen::Vector3d middle(int quad) const {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (int k : patch.quads()[static_cast<std::size_t>(quad)])
      sum += 0.25 * patch.nodes()[static_cast<std::size_t>(k)];
    return sum;
  }

  /// Radial pull of a quad [N/m], warp along y.
  double radial_pull(const check::PatchSolver& s, int quad) const {
    const Eigen::Vector3d at = middle(quad).normalized();
    const Mandel n = s.pull(quad);
    return at.y() * at.y() * n[0] + at.x() * at.x() * n[1] + 2 * at.x() * at.y() * n[2] / std::sqrt(2.0);
  }
  /// Pull at the centre: the pull is even in the radius, so two quads on the diagonal give N0 + k r^2.
  double pull_at_centre(const check::PatchSolver& s) const {
    const int first = block_quad(0, 0), second = block_quad(1, 1);
    const double r1 = middle(first).squaredNorm(), r2 = middle(second).squaredNorm();
    const double n1 = radial_pull(s, first), n2 = radial_pull(s, second);
    return n1 + (n1 - n2) * r1 / (r2 - r1);
  }
  /// Radial pull at the rim: the line through the two outer layers of quads, half-way between axis and diagonal. (In
  /// the quads along the diagonal, where the mesh has a kink, the pull converges with first order only.)
  double pull_at_rim(const check::PatchSolver& s) const {
    const int first = ring_quad(n_ - 1, n_ / 2), second = ring_quad(n_ - 2, n_ / 2);
    const double r1 = middle(first).norm(), r2 = middle(second).norm();
    const double n1 = radial_pull(s, first), n2 = radial_pull(s, second);
    return n1 + (n1 - n2) * (radius_ - r1) / (r1 - r2);
  }

  check::Patch patch;

 private:
  int column_of(int key) const { return key < n_ ? 2 * n_ - key : key - n_; }
  // Half the radius along the axes, 0.4 of it in x and y at the corner: quads of like size in block and ring.
  Eigen::Vector3d block(double u, double v) const {
    return radius_ * Eigen::Vector3d(0.5 * u - 0.1 * u * v, 0.5 * v - 0.1 * u * v, 0);
  }
  Eigen::Vector3d ring(int layer, int column) const {
    const double share = static_cast<double>(layer) / n_, angle = 0.25 * std::acos(-1.0) * column / n_;
    const Eigen::Vector3d inner = column <= n_ ? block(1, static_cast<double>(column) / n_)
                                               : block(static_cast<double>(2 * n_ - column) / n_, 1);
    return (1 - share) * inner + share * radius_ * Eigen::Vector3d(std::cos(angle), std::sin(angle), 0);
  }

  int n_;
  double radius_;
};

}  // namespace evenpull::published
