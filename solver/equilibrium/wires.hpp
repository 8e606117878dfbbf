// Wires of the frame, which only pull: docs/model.md, section 5. Straight between two joints with ball ends; the pull is
// N = max(0, N_0 + k e), e how far the ends have moved apart, of energy N^2/2k: convex, once differentiable.
#pragma once

#include "solver/frame/beam.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace evenpull::inline solver {

struct Model;

/// A slack wire keeps this share of its stiffness: so little that 1 mm of slack in a wire of 2 mm pushes with less than
/// 0.02 N, and so much that a frame which rattles between two slack wires does not stop the iteration.
inline constexpr double slack_stiffness = 1e-5;

struct Wire {
  int brace = 0;                          ///< index into Case::braces
  int beam = 0;                           ///< index into Panel::beams
  double rate = 0;                        ///< k = EA/L [N/m]
  double at_rest = 0;                     ///< N_0: pull while no joint has moved [N]; below 0: so much short of pulling
  BeamVector apart = BeamVector::Zero();  ///< e = apart . end displacements of its beam

  /// N_0 + k e [N] at displacements as numbered by Unknowns; below 0 the wire is slack.
  double pull(const Panel& p, const Eigen::VectorXd& unknowns) const;
};

/// The braces of a case that are wires; N_0 as yet what the case calls tightness.
std::vector<Wire> find_wires(const Case& c, const Panel& p);

/// Stiffness of a taut wire [N/m], and what 1 N of pull adds across it: that of a string, (1 - n n^T)/L.
BeamMatrix wire_stiffness(const Wire& w);
BeamMatrix string_stiffness(const BeamShape& b);

/// Sets N_0 of each wire so that on the bare frame, held as while it is ironed, each pulls what the case calls its
/// tightness: rigging gives the frame way. To first order. Throws CaseError (key "brace") where the frame cannot keep so
/// much: nothing pulls against the wire. A frame that does not stand is left as it is: check_stands names it.
void rig(const Model& m, std::vector<Wire>& wires);

}  // namespace evenpull::inline solver
