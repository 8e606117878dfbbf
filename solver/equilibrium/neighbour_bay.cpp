#include "solver/equilibrium/neighbour_bay.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

// Stiffness of what keeps a rib in the plane over that of the cloth [N/m over N/m]. From joint to joint the rib then leaves
// the plane by about 1e-8 of its chord, a hundredth of the cloth's stiffness times the chord over this, which is 0.1 N/m of
// pull at most; and rounding of the force in what moves by a millimetre is 1e-8 N, a thousandth of what a solve may be off by.
constexpr double plane_over_cloth = 1e6;

// Which motions of a rigid body are held, row by row.
class RigidMotions {
 public:
  explicit RigidMotions(const Panel& p) : panel_(p) {
    for (const Joint& j : p.joints) size_ = std::max(size_, j.position.norm());
  }
  /// Whether holding this unknown of a joint holds a motion that was free.
  bool take(int unknown) {
    const int joint = unknown / 6, k = unknown % 6;
    Eigen::Matrix<double, 6, 1> row = Eigen::Matrix<double, 6, 1>::Zero();
    if (k < 3) {
      const Eigen::Vector3d r = panel_.joints[joint].position / size_;
      row[k] = 1;
      row.tail<3>() = r.cross(Eigen::Vector3d::Unit(k));  // u_k = (theta x r)_k = theta . (r x e_k)
    } else {
      row[k] = 1;
    }
    const double whole = row.norm();
    for (const auto& b : basis_) row -= b.dot(row) * b;
    constexpr double rounding = 1e-6;  // places are good to more digits than that
    if (row.norm() < rounding * whole) return false;
    basis_.push_back(row.normalized());
    return true;
  }

 private:
  const Panel& panel_;
  double size_ = 1e-3;  // m
  std::vector<Eigen::Matrix<double, 6, 1>> basis_;
};

}  // namespace

bool in_mirror(const Case& c, int column, int columns) {
  return (column == 0 && c.cloth_goes_on_inboard) || (column == columns - 1 && c.cloth_goes_on_outboard);
}

bool in_mirror(const Case& c, const Panel& p, const Beam& b) {
  constexpr double same = 1e-9;  // m
  const double from = p.joints[b.from].position.y(), to = p.joints[b.to].position.y();
  const auto both_at = [&](double y) { return std::abs(from - y) < same && std::abs(to - y) < same; };
  return (c.cloth_goes_on_inboard && both_at(c.ribs.front().station)) ||
         (c.cloth_goes_on_outboard && both_at(c.ribs.back().station));
}

BeamMatrix plane_stiffness(const Case& c, const Panel& p, const Beam& b) {
  // Out of the plane: how far one joint stands off where the other would carry it, both turned by the mean of their turns
  // (u_y = theta_z x - theta_x z), and by how much their turns about x and z differ.
  const Eigen::Vector3d r = p.joints[b.to].position - p.joints[b.from].position;
  Eigen::Matrix<double, 3, 12> off = Eigen::Matrix<double, 3, 12>::Zero();
  off(0, 7) = 1, off(0, 1) = -1;
  for (int end : {0, 6}) off(0, end + 5) = -0.5 * r.x(), off(0, end + 3) = 0.5 * r.z();
  off(1, 9) = 1, off(1, 3) = -1;
  off(2, 11) = 1, off(2, 5) = -1;
  const double chord = c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x;
  const double rate = plane_over_cloth * std::max(c.cloth.stiffness.warp, c.cloth.stiffness.fill);
  const Eigen::Vector3d weights(rate, rate * chord * chord, rate * chord * chord);
  return off.transpose() * weights.asDiagonal() * off;
}

void hold_mirrors(const Case& c, const Panel& p, const Unknowns& u, std::vector<int>& held) {
  for (const SlidingPoint& s : u.sliding)
    if (s.unknowns == 2 && in_mirror(c, s.column, p.columns)) held.push_back(s.first_unknown + 1);
  RigidMotions motions(p);
  const int joints = 6 * static_cast<int>(p.joints.size());
  for (int i : held)
    if (i < joints) motions.take(i);
  for (const bool outboard : {false, true}) {
    if (!(outboard ? c.cloth_goes_on_outboard : c.cloth_goes_on_inboard)) continue;
    const int joint = outboard ? p.edge_joint.back() : p.edge_joint.front();
    for (int component : {1, 3, 5})
      if (motions.take(u.joint(joint, component))) held.push_back(u.joint(joint, component));
  }
  std::sort(held.begin(), held.end());
  held.erase(std::unique(held.begin(), held.end()), held.end());
}

}  // namespace evenpull::inline solver
