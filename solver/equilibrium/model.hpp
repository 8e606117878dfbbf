// Everything of a case that does not change while it is ironed: mesh, unknowns, triangles, beams and the pattern of the
// tangent. One Model serves any number of coverings; it is only read after it was built.
#pragma once

#include "solver/cloth/membrane.hpp"
#include "solver/cloth/quads.hpp"
#include "solver/equilibrium/tangent_map.hpp"
#include "solver/equilibrium/unknowns.hpp"
#include "solver/equilibrium/wires.hpp"
#include "solver/frame/joint_turn.hpp"
#include "solver/frame/thin_flats.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/numerics/linear_solver.hpp"
#include "solver/statement/case.hpp"

#include <array>
#include <vector>

namespace evenpull::inline solver {

/// Corners (0..3 of the quad) of the four triangles laid over each quad.
inline constexpr int triangle_corners[4][3] = {{0, 1, 2}, {0, 2, 3}, {1, 2, 3}, {0, 1, 3}};

/// Who holds the panel.
enum class Held { while_ironed = 0, in_use = 1 };

struct Model {
  Model(const Case& c, const MeshOptions& options);

  /// The same over a mesh made elsewhere: cloth of the case on the panel given, with these unknowns held while ironed
  /// and in use. Of the case the cloth, the blanket's friction, materials and limits count. Each quad must name its
  /// nodes so that first < fourth < second < third in number.
  Model(const Case& c, Panel mesh, std::array<std::vector<int>, 2> unknowns_held);

  Case the_case;
  Panel panel;
  Unknowns unknowns;
  std::vector<Triangle> triangles;  ///< 4 a quad
  std::vector<QuadShape> shapes;    ///< the same, four at once
  Eigen::Matrix3d compliance;
  Mandel looseness;              ///< strain
  std::vector<BeamShape> beams;  ///< as Panel::beams, with material
  std::vector<BeamMatrix> beam_elastic;
  std::vector<BeamMatrix> beam_geometric;  ///< under 1 N of pull; proportional to the axial force
  std::vector<char> comes_out;             ///< of each beam: it is there only while the panel is ironed
  std::vector<Wire> wires;        ///< of the beams, those that only pull; their stiffness here is that of taut ones
  std::vector<double> allowable;  ///< stress allowed in each member [Pa]
  std::vector<BeamFlats> flats;   ///< thin flats of each beam
  double cloth_area = 0;          ///< m^2, both sides
  double softest = 0;             ///< lambda_min(C) [m/N]
  /// Below this pull [N/m] cloth counts as loose: a ninetieth of the most that the cloth of the case pulls, so that
  /// everything measured by it scales with the job (docs/model.md, section 2).
  double loose_pull = 0;
  std::array<std::vector<int>, 2> held;        ///< unknowns held, by Held
  std::array<std::vector<Spring>, 2> springs;  ///< of supports that give, by Held

  Sparse pattern;                                          ///< lower triangle, zero values
  std::shared_ptr<const LinearSolver::Analysis> analysis;  ///< of the pattern
  TangentMap tangent;                                      ///< where the cloth's stiffness goes in pattern's values
  // Positions in pattern's values: beams (78 lower entries each), diagonal, and the off-diagonal of two-way sliding
  // points.
  std::vector<std::array<int, 78>> beam_positions;
  std::vector<int> diagonal;
  std::vector<int> sliding_cross;                  ///< -1 for one-way points
  std::array<std::vector<int>, 2> held_positions;  ///< values in rows and columns of held unknowns
  /// The same of each sliding point's own unknowns; empty where the case attaches nothing.
  std::vector<std::vector<int>> sliding_positions;

  /// Whether a beam is there while the panel is held so.
  bool stands(std::size_t beam, Held h) const { return h == Held::while_ironed || !comes_out[beam]; }

 private:
  void build(const std::vector<BeamEnds>& ends);  ///< no ends: all beams end rigidly but for their hinges
  void build_pattern();
  void find_sliding_positions();
};

/// Index of (row, column), row >= column, among the lower triangle stored row by row.
inline int lower_index(int row, int column) { return row * (row + 1) / 2 + column; }

}  // namespace evenpull::inline solver
