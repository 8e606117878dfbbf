#include "solver/sound/free_air.hpp"

#include "solver/sound/mean_plane.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
#include <utility>

namespace evenpull::inline solver {
namespace {

constexpr double four_pi = 12.5663706143591729539;
// In sizes of the largest triangle: nearer than the first the outer integral takes three points, further than the
// second the triangles are two points (their spread is then below 1/400 of what they do to each other).
constexpr double near_by = 3, far_off = 6;

using Corner = Eigen::Vector2d;
using Triangle = std::array<Corner, 3>;

double area_of(const Triangle& t) {
  const Corner a = t[1] - t[0], b = t[2] - t[0];
  return 0.5 * (a.x() * b.y() - a.y() * b.x());
}

// Integral of 1/R over a triangle that is turned to the left, from a point of its plane: each side gives its distance
// times the difference of asinh(along/distance) at its ends (Wilton et al., IEEE Trans. AP 32, 1984, from memory).
double potential_at(const Corner& p, const Triangle& t) {
  double sum = 0;
  for (int k = 0; k < 3; ++k) {
    const Corner a = t[k] - p, b = t[(k + 1) % 3] - p;
    const double length = (b - a).norm();
    const Corner along = (b - a) / length;
    const double distance = a.x() * along.y() - a.y() * along.x();
    if (std::abs(distance) < 1e-12 * length) continue;
    const double h = std::abs(distance);
    sum += distance * (std::asinh(b.dot(along) / h) - std::asinh(a.dot(along) / h));
  }
  return sum;
}

Corner middle_of(const Triangle& t) { return (t[0] + t[1] + t[2]) / 3; }

// Integral over both of 1/R.
double between(const Triangle& a, const Triangle& b, double size) {
  const Corner middle = middle_of(a);
  const double apart = (middle - middle_of(b)).norm();
  if (apart > far_off * size) return area_of(a) * area_of(b) / apart;
  if (apart > near_by * size) return area_of(a) * potential_at(middle, b);
  double mean = 0;
  for (int k = 0; k < 3; ++k) mean += potential_at(0.5 * (middle + a[k]), b) / 3;  // exact for a parabola
  return area_of(a) * mean;
}

}  // namespace

FreeAir::FreeAir(const std::vector<Eigen::Vector3d>& nodes, const std::vector<std::array<int, 4>>& quads) {
  assert(!quads.empty());
  const MeanPlane plane(nodes, quads);
  normal_ = plane.normal;

  std::vector<std::array<int, 3>> corners;
  std::map<std::pair<int, int>, int> edges;
  for (std::size_t q = 0; q < quads.size(); ++q) {
    const auto& n = quads[q];
    for (int k = 0; k < 4; ++k) ++edges[{std::min(n[k], n[(k + 1) % 4]), std::max(n[k], n[(k + 1) % 4])}];
    // Diagonals in turn, so that none is preferred.
    const int s = static_cast<int>(q % 2);
    corners.push_back({n[s], n[s + 1], n[s + 2]});
    corners.push_back({n[s], n[s + 2], n[(s + 3) % 4]});
  }
  std::vector<int> inner(nodes.size(), -1);
  for (const auto& n : quads)
    for (const int i : n) inner[i] = 0;
  for (const auto& [ends, count] : edges)
    if (count == 1) inner[ends.first] = inner[ends.second] = -1;
  int unknowns = 0;
  for (int& i : inner)
    if (i == 0) i = unknowns++;

  std::vector<Triangle> triangles;
  std::vector<std::array<Corner, 3>> gradients;  // of the three hats of each, constant
  std::vector<Eigen::Triplet<double>> weights;
  double size = 0;
  for (auto& c : corners) {
    Triangle t{plane.flat(nodes[c[0]]), plane.flat(nodes[c[1]]), plane.flat(nodes[c[2]])};
    if (area_of(t) < 0) std::swap(c[1], c[2]), std::swap(t[1], t[2]);
    const double area = area_of(t);
    std::array<Corner, 3> g;
    for (int k = 0; k < 3; ++k) {
      const Corner across = t[(k + 2) % 3] - t[(k + 1) % 3];
      g[k] = Corner(-across.y(), across.x()) / (2 * area);
      size = std::max(size, across.norm());
      for (int j = 0; j < 3; ++j)
        if (inner[c[k]] >= 0) weights.emplace_back(inner[c[k]], c[j], area / (j == k ? 6 : 12));
    }
    triangles.push_back(t);
    gradients.push_back(g);
  }
  mass_.resize(unknowns, static_cast<int>(nodes.size()));
  mass_.setFromTriplets(weights.begin(), weights.end());

  Eigen::MatrixXd d = Eigen::MatrixXd::Zero(unknowns, unknowns);
  for (std::size_t a = 0; a < triangles.size(); ++a)
    for (std::size_t b = 0; b <= a; ++b) {
      const double both = a == b
                              ? between(triangles[a], triangles[a], size)
                              : between(triangles[a], triangles[b], size) + between(triangles[b], triangles[a], size);
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j) {
          const int row = inner[corners[a][i]], column = inner[corners[b][j]];
          if (row < 0 || column < 0) continue;
          const double part = 0.5 * both * gradients[a][i].dot(gradients[b][j]) / four_pi;
          d(row, column) += part;
          d(column, row) += part;
        }
    }
  // A triangle with itself was counted on both sides of the diagonal, each half: as the pairs are.
  jump_.compute(d);
  assert(unknowns == 0 || jump_.info() == Eigen::Success);
}

double FreeAir::volume(const Eigen::VectorXd& velocity) const {
  if (mass_.rows() == 0) return 0;
  const Eigen::VectorXd moved = mass_ * velocity;
  return moved.dot(jump_.solve(moved));
}

}  // namespace evenpull::inline solver
