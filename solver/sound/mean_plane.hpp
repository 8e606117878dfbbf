// The plane in which the air on a surface is reckoned.
#pragma once

#include <Eigen/Core>
#include <Eigen/Geometry>

#include <array>
#include <vector>

namespace evenpull::inline solver {

struct MeanPlane {
  Eigen::Vector3d normal, along, across;  ///< unit vectors

  /// Quads may go round either way: all are turned to the first.
  MeanPlane(const std::vector<Eigen::Vector3d>& nodes, const std::vector<std::array<int, 4>>& quads) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (const auto& q : quads) {
      const Eigen::Vector3d area = (nodes[q[2]] - nodes[q[0]]).cross(nodes[q[3]] - nodes[q[1]]);
      sum += area.dot(sum) < 0 ? Eigen::Vector3d(-area) : area;
    }
    normal = sum.normalized();
    along = normal.unitOrthogonal();
    across = normal.cross(along);
  }
  Eigen::Vector2d flat(const Eigen::Vector3d& p) const { return {p.dot(along), p.dot(across)}; }
};

}  // namespace evenpull::inline solver
