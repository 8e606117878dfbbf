#include "solver/cloth/membrane.hpp"

#include <Eigen/Geometry>
#include <Eigen/LU>

#include <cassert>
#include <cmath>

namespace evenpull::inline solver {
namespace {
constexpr double root2 = 1.41421356237309504880;
}

Triangle make_triangle(const Corners& placed, const Eigen::Vector3d& span, double warp_angle, double area_share) {
  const Eigen::Vector3d a = (placed.row(1) - placed.row(0)).transpose();
  const Eigen::Vector3d b = (placed.row(2) - placed.row(0)).transpose();
  const Eigen::Vector3d normal = a.cross(b);
  const double twice_area = normal.norm();
  assert(twice_area > 0 && "a triangle of the placed cloth has no area");
  const Eigen::Vector3d n = normal / twice_area;
  const Eigen::Vector3d along = (span - span.dot(n) * n).normalized();
  Eigen::Vector3d across = along.cross(n);
  if (across.x() < 0) across = -across;  // towards the TE on both sides
  const Eigen::Vector3d warp = std::cos(warp_angle) * along + std::sin(warp_angle) * across;
  const Eigen::Vector3d fill = -std::sin(warp_angle) * along + std::cos(warp_angle) * across;
  Eigen::Matrix2d edges;
  edges << warp.dot(a), warp.dot(b), fill.dot(a), fill.dot(b);
  const Eigen::Matrix2d inv = edges.inverse();
  Triangle t;
  t.weight = 0.5 * twice_area * area_share;
  t.gradient.row(1) = inv.row(0);
  t.gradient.row(2) = inv.row(1);
  t.gradient.row(0) = -t.gradient.row(1) - t.gradient.row(2);
  return t;
}

Eigen::Matrix<double, 3, 2> deformation(const Triangle& t, const Corners& current) {
  return current.transpose() * t.gradient;
}

Mandel green_lagrange(const Eigen::Matrix<double, 3, 2>& f) {
  return {0.5 * (f.col(0).squaredNorm() - 1), 0.5 * (f.col(1).squaredNorm() - 1), root2 * 0.5 * f.col(0).dot(f.col(1))};
}

Eigen::Matrix<double, 3, 9> strain_matrix(const Triangle& t, const Eigen::Matrix<double, 3, 2>& f) {
  Eigen::Matrix<double, 3, 9> b;
  for (int i = 0; i < 3; ++i) {
    const double w = t.gradient(i, 0), q = t.gradient(i, 1);
    b.block<1, 3>(0, 3 * i) = w * f.col(0).transpose();
    b.block<1, 3>(1, 3 * i) = q * f.col(1).transpose();
    b.block<1, 3>(2, 3 * i) = (0.5 * root2) * (w * f.col(1) + q * f.col(0)).transpose();
  }
  return b;
}

Eigen::Matrix3d geometric_stiffness(const Triangle& t, const Mandel& n) {
  Eigen::Matrix2d pull;
  pull << n[0], n[2] / root2, n[2] / root2, n[1];
  return t.weight * t.gradient * pull * t.gradient.transpose();
}

}  // namespace evenpull::inline solver
