// A manufactured solution through the solver: loaded by its load, held round the edge at its displacement.
#pragma once

#include "tests/published/manufactured.hpp"
#include "tests/published/starting_pull.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

namespace evenpull::published {

/// How far a mesh is off: root mean squares over the area, as shares of those of the solution itself.
struct ManufacturedErrors {
  double displacement = 0;
  double triangle_pull = 0;    ///< each triangle's pull against that at its middle
  double quad_pull = 0;        ///< mean pull of each quad against that at its middle
  double energy = 0;           ///< 1/2 N:C:N over the area [N m], not an error
  double least = 0, most = 0;  ///< least and largest minor principal pull of the solution at a quad's middle [N/m]
};

/// Where node (u, v) of the unit square's grid is put in it: edges to edges.
using MeshMap = std::function<Eigen::Vector2d(double u, double v)>;

class ManufacturedRun {
 public:
  ManufacturedRun(const Manufactured& m, int n, const MeshMap& map, double pull_to_start_from)
      : m_(m), n_(n), patch_(with_mesh(map)), s_(patch_) {
    for (int i = 0; i <= n; ++i)
      for (int j = 0; j <= n; ++j) {
        if (!on_edge(i, j)) continue;
        const int node = i * (n + 1) + j;
        const Eigen::Vector3d u = m.displacement(at_[node]);
        for (int k = 0; k < 3; ++k) s_.move_node(node, k, u[k]);
      }
    for (int q = 0; q < n * n; ++q) {
      const std::array<double, 2> shrink = m.shrink(middle(quad(q)));
      s_.shrink_quad(q, shrink[0], shrink[1]);
      // Midpoint rule on each triangle, half of the quad's load to either pair: second order, as the element.
      for (int t = 0; t < 4; ++t) {
        const std::array<int, 3> corners = triangle(q, t);
        const Eigen::Vector3d third = 0.5 / 3 * unit_area(corners) * m.load(middle(corners));
        for (int k : corners) s_.load_node(k, third);
      }
    }
    guess_pull(s_, pull_to_start_from);
    s_.solve();
  }

  ManufacturedErrors errors() const {
    ManufacturedErrors e;
    double u = 0, whole_u = 0, triangles = 0, quads = 0, whole_pull = 0;
    e.least = 1e300;
    e.most = -1e300;
    for (int q = 0; q < n_ * n_; ++q) {
      double quad_area = 0;
      for (int t = 0; t < 4; ++t) {
        const std::array<int, 3> corners = triangle(q, t);
        const Eigen::Vector2d centre = middle(corners);
        const double weight = 0.5 * unit_area(corners) * m_.area(centre);
        quad_area += weight;
        triangles += weight * difference(s_.state().tension[4 * q + t].pull, m_.pull(centre));
        // Middles of the sides: exact for squares of linear differences.
        for (int k = 0; k < 3; ++k) {
          const int a = corners[k], b = corners[(k + 1) % 3];
          const Eigen::Vector3d exact = m_.displacement(0.5 * (at_[a] + at_[b]));
          u += weight / 3 * (0.5 * (s_.displacement(a) + s_.displacement(b)) - exact).squaredNorm();
          whole_u += weight / 3 * exact.squaredNorm();
        }
      }
      const Eigen::Vector3d exact = m_.pull(middle(quad(q)));
      quads += quad_area * difference(s_.pull(q), exact);
      whole_pull += quad_area * difference(Mandel::Zero(), exact);
      const double minor = 0.5 * (exact[0] + exact[1]) - std::hypot(0.5 * (exact[0] - exact[1]), exact[2]);
      e.least = std::min(e.least, minor);
      e.most = std::max(e.most, minor);
    }
    e.displacement = std::sqrt(u / whole_u);
    e.triangle_pull = std::sqrt(triangles / whole_pull);
    e.quad_pull = std::sqrt(quads / whole_pull);
    e.energy = s_.tension_energy();
    return e;
  }

 private:
  bool on_edge(int i, int j) const { return i == 0 || j == 0 || i == n_ || j == n_; }
  check::Patch with_mesh(const MeshMap& map) {
    for (int i = 0; i <= n_; ++i)
      for (int j = 0; j <= n_; ++j) at_.push_back(map(static_cast<double>(i) / n_, static_cast<double>(j) / n_));
    check::Patch p(m_.cloth);
    p.add_grid(n_, n_,
               [&](double u, double v) { return m_.place(at_[std::lround(u * n_) * (n_ + 1) + std::lround(v * n_)]); });
    for (int i = 0; i <= n_; ++i)
      for (int j = 0; j <= n_; ++j)
        for (int k = 0; k < 3; ++k)
          if (on_edge(i, j)) p.hold_node(i * (n_ + 1) + j, k);
    return p;
  }
  std::array<int, 4> quad(int q) const { return s_.model().panel.quads[q].nodes; }
  std::array<int, 3> triangle(int q, int t) const {
    const std::array<int, 4> c = quad(q);
    return {c[triangle_corners[t][0]], c[triangle_corners[t][1]], c[triangle_corners[t][2]]};
  }
  template <std::size_t count>
  Eigen::Vector2d middle(const std::array<int, count>& corners) const {
    Eigen::Vector2d sum = Eigen::Vector2d::Zero();
    for (int k : corners) sum += at_[k];
    return sum / static_cast<double>(count);
  }
  double unit_area(const std::array<int, 3>& c) const {
    const Eigen::Vector2d a = at_[c[1]] - at_[c[0]], b = at_[c[2]] - at_[c[0]];
    return 0.5 * std::abs(a.x() * b.y() - a.y() * b.x());
  }
  // |N - N'|^2 as tensors.
  static double difference(const Mandel& ours, const Eigen::Vector3d& exact) {
    return (ours - Mandel(exact[0], exact[1], std::sqrt(2.0) * exact[2])).squaredNorm();
  }

  const Manufactured& m_;
  int n_;
  std::vector<Eigen::Vector2d> at_;
  check::Patch patch_;
  check::PatchSolver s_;
};

}  // namespace evenpull::published
