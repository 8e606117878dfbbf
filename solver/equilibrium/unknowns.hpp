// From the unknowns of the equilibrium to nodal displacements: docs/model.md, sections 1 and 6. Linear throughout.
//   joint                u (3), theta (3)
//   free cloth node      u (3)
//   glued node           u_joint + theta x r
//   bearing node         u_joint + theta x r + a t_chord + b t_span         (a, b: creep over the member)
//   wrapped pair         u_top = u_TE - q t_top,  u_bottom = u_TE + q t_bottom   (q: slip, cloth gone to the top)
#pragma once

#include "solver/geometry/panel.hpp"

#include <Eigen/Core>

#include <vector>

namespace evenpull::inline solver {

/// Displacement of a cloth node = sum over k of column[k] * unknown[index[k]].
struct NodeMap {
  int count = 0;
  /// Three unknowns of its own, one after the other; every tied node has six or more.
  bool is_free() const { return count == 3; }
  std::array<int, 8> index{};
  Eigen::Matrix<double, 3, 8> column = Eigen::Matrix<double, 3, 8>::Zero();
};

/// A place where cloth slides over structure against friction.
struct SlidingPoint {
  enum class Kind { wrapped, bearing };
  Kind kind = Kind::wrapped;
  int first_unknown = 0;  ///< q, or a then b
  int unknowns = 1;       ///< 1 or 2
  int top_node = 0;       ///< wrapped: node above; bearing: the node
  int bottom_node = 0;    ///< wrapped: node below
  int column = 0;
};

struct Unknowns {
  int count = 0;
  std::vector<NodeMap> nodes;
  std::vector<SlidingPoint> sliding;
  int joint(int j, int component) const { return 6 * j + component; }
};

Unknowns number_unknowns(const Panel& p);

/// Displacement of a cloth node [m].
Eigen::Vector3d displacement(const NodeMap& m, const Eigen::VectorXd& d);

/// The unknowns that a list of supports holds and that do not give.
std::vector<int> held_unknowns(const Panel& p, const std::vector<Support>& supports);

/// A support that gives: a spring to the ground on one unknown.
struct Spring {
  int unknown = 0;
  double stiffness = 0;  ///< N/m
};

/// Of the supports that give, each movement that they hold; what another one holds firmly is left out. Where several give
/// on one unknown their stiffness adds.
std::vector<Spring> support_springs(const Panel& p, const std::vector<Support>& supports);

}  // namespace evenpull::inline solver
