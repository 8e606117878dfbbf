// The state of the job at one moment: a plain value, copied freely (orders are tried from common prefixes).
#pragma once

#include "solver/cloth/fabric_law.hpp"
#include "solver/equilibrium/model.hpp"

#include <array>
#include <vector>

namespace evenpull::inline solver {

struct Covering {
  Eigen::VectorXd unknowns;                   ///< as numbered by Unknowns
  std::vector<Tension> tension;               ///< of each triangle
  std::vector<std::array<double, 2>> shrink;  ///< of each triangle, warp and fill [strain]
  std::vector<Eigen::Vector2d> friction;      ///< of each sliding point [N]
  std::vector<double> axial;                  ///< axial force of each beam, from the last accepted state [N]
  std::vector<Eigen::Vector3d> nodal_force;   ///< dE/du of the cloth at each cloth node [N]
  Held held = Held::while_ironed;
  /// Where the springs of the supports (Model::springs of `held`) pull to, by spring [m]: where they were put on. Empty: zero,
  /// as laid on.
  std::vector<double> springs_from;
  /// Of each sliding point, whether the cloth is fastened there and slides no more (attaching.hpp). Empty: nowhere.
  std::vector<char> attached;
  /// Dead load on each unknown [N, N m], kept while the cloth moves: a weight laid on, say. Empty: none.
  Eigen::VectorXd load;
};

/// Displacements of the two ends of a beam [m, rad], panel axes, from unknowns as numbered by Unknowns: those of joint i
/// stand at 6 i.
inline BeamVector ends_of(const Beam& b, const Eigen::VectorXd& unknowns) {
  BeamVector u;
  u << unknowns.segment<6>(6 * b.from), unknowns.segment<6>(6 * b.to);
  return u;
}

/// Cloth as laid on: nothing shrunk, everything at rest.
Covering laid_on(const Model& m);

}  // namespace evenpull::inline solver
