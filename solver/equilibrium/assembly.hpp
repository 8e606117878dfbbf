// Cloth and frame at one shape: what pulls where, and their tangent (docs/model.md, sections 2 and 5). Solving for the shape
// at which all is in balance is the work of equilibrium.hpp.
#pragma once

#include "solver/cloth/pass_line.hpp"
#include "solver/equilibrium/covering.hpp"

#include <array>
#include <vector>

namespace evenpull::inline solver {

/// Load lines of all triangles, warp and fill, as they are while their zone is hot; indexed as Model::triangles,
/// empty = all cold. The kinds of lines: solver/cloth/pass_line.hpp.
using PanelLoadLines = std::vector<std::array<LoadLine, 2>>;

class Assembly {
 public:
  Assembly(const Model& m, double smoothing);

  double smoothing() const { return law_.smoothing; }
  void set_smoothing(double smoothing) { law_.smoothing = smoothing; }

  /// Stiffness of the members under the axial forces that the covering holds.
  void prepare_frame(const Covering& s);
  /// Takes each wire for taut or slack as it is in a shape.
  void follow_wires(const Eigen::VectorXd& d);
  /// The first wire that is taken for what it is not in a shape; -1: none.
  int first_wire_off(const Eigen::VectorXd& d) const;
  /// Takes one wire for taut instead of slack, or the other way round.
  void turn_wire(int wire) { taut_[wire] = !taut_[wire]; }
  /// The members' geometric stiffness under the forces that they have in the present shape: what is out of balance is so
  /// under these. The tangent leaves out how they change, which costs no iterations (bench/RECORD.md).
  void follow_member_forces(Covering& s);

  /// Pull, wrinkle strain and shrink of a covering, all cold.
  void take_state(const Covering& s);
  /// Pull and wrinkle strain back.
  void give_state(Covering& s) const;
  /// Pull and wrinkle strain moved from the smoothing that they belong to, to a larger one that was set.
  void recentre();
  /// The law of the hot triangles changed: they start from its own answer at the present shape.
  void heat(const std::vector<int>& hot_quads, const PanelLoadLines& lines);
  /// Shrink of the hot triangles at their present pull, and how it falls with it.
  void refresh_hot(const std::vector<int>& hot_quads);

  /// Cloth nodes where the unknowns put them.
  void place_nodes(const Eigen::VectorXd& d);
  /// Nodal forces, and the tangent without friction, at the present places and pulls.
  QuadSums assemble();
  /// Pull, wrinkle strain and places of the cloth a full step further.
  void step(const Eigen::VectorXd& d);

  /// Forces of the members, and those of the cloth at its nodes, added to one for each unknown.
  void add_frame_force(const Eigen::VectorXd& d, Eigen::VectorXd& r) const;
  void add_nodal(const std::vector<Padded>& nodal, Eigen::VectorXd& r) const;

  /// Both geometric parts at a covering whose frame was prepared: lower triangle, zero where held.
  Sparse geometric(const Covering& s);

  Sparse& matrix() { return matrix_; }  ///< the tangent, lower triangle
  const std::vector<ClothPoint>& points() const { return points_; }
  const std::vector<BeamMatrix>& frame() const { return frame_; }  ///< elastic + geometric of each beam
  const std::vector<Padded>& places() const { return x_; }
  const std::vector<Padded>& force() const { return force_; }          ///< nodal, with N
  const std::vector<Padded>& predicted() const { return predicted_; }  ///< nodal, with N + correction

 private:
  void displace(const Eigen::VectorXd& d, std::vector<Padded>& u) const;
  void add_frame(const std::vector<BeamMatrix>& beams, double* values) const;

  const Model& model_;
  QuadLaw law_;
  Sparse matrix_;
  std::vector<BeamMatrix> frame_;
  std::vector<char> taut_;          // of each wire
  std::vector<ClothPoint> points_;  // of each triangle
  std::vector<QuadState> states_;
  std::vector<QuadWork> work_;
  std::vector<NodeBlock> blocks_, own_blocks_;
  std::vector<Padded> x_, du_, force_, predicted_;  // nodal
};

}  // namespace evenpull::inline solver
