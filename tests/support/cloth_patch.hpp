// A piece of cloth by itself, without a panel round it: any mesh of quads, nodes held or tied to rigid bodies, beams
// between bodies, dead loads or pressure. It goes through the solver's own mesh, law and equilibrium, so that closed
// forms for membranes check these and nothing written for the test.
#pragma once

#include "solver/cloth/shrink.hpp"
#include "solver/equilibrium/equilibrium.hpp"

#include <array>
#include <functional>
#include <memory>
#include <vector>

namespace evenpull::check {

/// What a patch is made of. Yarns: the warp lies at `warp_angle` from the y axis, towards +x.
struct PatchCloth {
  double warp = 100e3, fill = 100e3;  ///< stiffness [N/m]
  double poisson = 0.3;
  double shear = 100e3 / 2.6;  ///< N/m; this one with the two above is isotropic
  double warp_angle = 0;       ///< rad
};

/// Isotropic cloth of stiffness Et [N/m].
PatchCloth isotropic(double stiffness, double poisson);

/// A straight member between two bodies, which are its joints.
struct PatchBeam {
  Section section;
  double youngs_modulus = 0, shear_modulus = 0;  ///< Pa
  Eigen::Vector3d up{0, 0, 1};
  bool hinge_from = false, hinge_to = false;
};

/// The mesh. Nodes and quads may come in any order; the corners of a quad go round it.
class Patch {
 public:
  explicit Patch(const PatchCloth& cloth) : cloth_(cloth) {}

  int add_node(const Eigen::Vector3d& placed);
  void add_quad(const std::array<int, 4>& corners);
  /// A rigid body at a place: six unknowns of its own, small rotations. Returns its number.
  int add_body(const Eigen::Vector3d& at);
  /// A beam; returns its number. A patch of beams alone is a frame.
  int add_beam(int from_body, int to_body, const PatchBeam& beam);
  /// The node moves with the body.
  void glue(int node, int body);
  /// The node moves with the body but for the two directions given (unit vectors), along which it slides freely.
  void let_slide(int node, int body, const Eigen::Vector3d& first, const Eigen::Vector3d& second);
  /// Component 0..2 of a free node, or 0..5 of a body, is prescribed; its value is set in PatchSolver (0 at first).
  void hold_node(int node, int component);
  void hold_body(int body, int component);

  const std::vector<Eigen::Vector3d>& nodes() const { return nodes_; }
  const std::vector<std::array<int, 4>>& quads() const { return quads_; }

  /// rows x columns quads; `place(u, v)` maps the unit square, u along the columns of nodes (row index), v along a row.
  /// Node (i, j) has the number i * (columns + 1) + j, plus the number of nodes there were before.
  int add_grid(int rows, int columns, const std::function<Eigen::Vector3d(double u, double v)>& place);
  /// The same closed into a ring: v = 1 is v = 0. Node (i, j) has the number i * columns + j, plus those before.
  int add_ring(int rows, int columns, const std::function<Eigen::Vector3d(double u, double v)>& place);

 private:
  friend class PatchSolver;
  struct NodeTie {
    Tie kind = Tie::none;
    int body = -1;
    Eigen::Vector3d first{0, 0, 0}, second{0, 0, 0};
  };
  struct Hold {
    bool body = false;
    int of = 0, component = 0;
  };
  PatchCloth cloth_;
  std::vector<Eigen::Vector3d> nodes_, bodies_;
  std::vector<std::array<int, 4>> quads_;
  std::vector<NodeTie> ties_;
  struct Member {
    int from = 0, to = 0;
    PatchBeam beam;
  };
  std::vector<Hold> holds_;
  std::vector<Member> members_;
};

class PatchSolver {
 public:
  /// `accuracy.smoothing` is the last of a falling row of smoothings that each solve goes through.
  explicit PatchSolver(const Patch& p, const SolveOptions& a = accurate());
  /// Tension error bound well below what a check can see, tight force tolerance.
  static SolveOptions accurate();

  /// Pre-shrink (strain, pull before any load = C^-1 of it) of the whole patch or of one quad.
  void shrink(double warp, double fill);
  void shrink_quad(int quad, double warp, double fill);
  /// Prescribed values of what is held [m, rad].
  void move_node(int node, int component, double to);
  void move_body(int body, int component, double to);
  /// First guess for a free node's displacement [m].
  void guess_node(int node, const Eigen::Vector3d& displacement);
  /// Dead loads [N, N m]; they add up until cleared.
  void load_node(int node, const Eigen::Vector3d& force);
  void load_body(int body, const Eigen::Vector3d& force, const Eigen::Vector3d& moment);
  void clear_loads() { state_.load.setZero(); }

  /// Requires convergence (a Catch2 REQUIRE).
  SolveReport solve();
  /// One pass of the iron over the whole patch at once: load lines of this shrink and dose.
  SolveReport iron(const ShrinkState& shrink, double dose);
  /// Pressure [Pa] along the normals of the deformed quads (positive along (corner 1 - corner 0) x (corner 3 - corner
  /// 0) of a quad as it was added), added to the dead loads; solves again until the nodes move by less than `settled`
  /// [m].
  SolveReport solve_under_pressure(double pressure, double settled = 1e-9, int most_rounds = 60);

  Eigen::Vector3d displacement(int node) const;
  Eigen::Vector3d position(int node) const;
  Eigen::Vector3d body_translation(int body) const;
  Eigen::Vector3d body_rotation(int body) const;
  /// Mean tension of a quad in warp/fill axes [N/m].
  Mandel pull(int quad) const;
  Principal principal_pull(int quad) const { return principal(pull(quad)); }
  /// Force with which the cloth pulls at a held node or a body: what the holder must bear, turned round [N, N m].
  Eigen::Vector3d node_force(int node) const;
  Eigen::Matrix<double, 6, 1> body_force(int body) const;
  /// Resultants of a beam, its axial force's part in bending included.
  BeamForces beam_forces(int beam) const;
  /// The cloth's dual energy (1/2 N:C:N) [N m].
  double tension_energy() const;

  const Model& model() const { return *model_; }
  Equilibrium& equilibrium() { return *last_; }
  Covering& state() { return state_; }
  const Covering& state() const { return state_; }
  int unknown_of_node(int node, int component) const;

 private:
  SolveReport solve_hot(const std::vector<int>& hot, const PanelLoadLines& lines);

  Patch patch_;
  std::unique_ptr<Model> model_;
  std::vector<std::unique_ptr<Equilibrium>> path_;
  Equilibrium* last_ = nullptr;
  Covering state_;
};

}  // namespace evenpull::check
