// Equilibrium of cloth, frame and friction by a primal-dual Newton method (docs/model.md, sections 2, 5, 6 and 9).
// Unknowns: d (all kinematic unknowns), per triangle N and S with C N - e - ds = S and N S = beta I (condensed triangle
// by triangle), friction force f per sliding point with f max(eps, |dq|) = tau dq, tau refreshed each iteration.
#pragma once

#include "solver/equilibrium/buckling.hpp"
#include "solver/equilibrium/covering.hpp"
#include "solver/equilibrium/friction.hpp"
#include "solver/numerics/linear_solver.hpp"
#include "solver/statement/errors.hpp"

#include <functional>
#include <string>
#include <vector>

namespace evenpull {

/// What an answer has to pass before it is accepted.
enum class Test { balance, law, smoothing, friction, certainty };

struct SolveReport {
  bool converged = false;
  bool stable = true;  ///< the tangent stayed positive definite
  int iterations = 0;
  double residual = 0;         ///< N
  double tension_change = 0;   ///< N/m
  double threshold_error = 0;  ///< of friction
  double tension_bound = 0;    ///< N/m rms, from the duality gap
  double gap = 0;              ///< duality gap of the convex problem at the friction thresholds of the answer [N m]
  double friction_gap = 0;     ///< the share of sliding points in it [N m]
  double energy = 0;           ///< 1/2 N:C:N of the cloth + the frame's strain energy [N m]: what to measure the gap by
  Test failed = Test::balance; ///< where it did not converge: the test that was missed by the largest factor
  Missed missed;               ///< and its numbers
};

/// Numbers that decide when an equilibrium is accepted.
struct Accuracy {
  double smoothing = 1e-3;         ///< beta [N/m]: tension error bound sqrt(4 beta / lambda_min(C)), 20 N/m at 100 kN/m
  double start_smoothing = 0;      ///< beta that a solve starts with, halved each iteration until `smoothing`; 0: the same
  double force_tolerance = 5e-4;   ///< N, largest out-of-balance force of any unknown (moments: over 1 m)
  double tension_tolerance = 0.1;  ///< N/m, largest change that the law still asks for at unchanged strain
  double friction_tolerance = 2e-3;  ///< largest |f - law| / (tau + least_threshold)
  double least_threshold = 1;        ///< N: friction below it is measured by it
  double sliding_width = 2e-7;       ///< eps [m]
  int most_iterations = 80;
  bool member_forces_held = false;   ///< geometric stiffness under the members' forces of the state before
  double tension_bound = 0;        ///< N/m rms: an answer whose bound is wider is sharpened or not accepted; 0: any
  std::function<void(const SolveReport&)> watch;  ///< called each iteration, for diagnosis
};

/// What orders are compared with: loose cloth keeps no more pull than Model::loose_pull, and tolerances scale with the pull
/// of the cloth and the size of the panel. Not so what friction is measured by: on small panels that would ask for more
/// than the iteration can give.
Accuracy usual_accuracy(const Model& m);

/// The tension error [N/m rms] that every solve of a printed plan is certified to stay within: 2 N/m where the cloth
/// pulls as usual, in proportion where it pulls much more or much less (docs/model.md, section 2).
double certified_tension(const Case& c);

/// Accuracy whose every answer is certified to `certified_tension`.
Accuracy certified_accuracy(const Model& m);

/// What a triangle's load lines are while its zone is hot; indexed as Model::triangles, empty = all cold.
using HotLines = std::vector<std::array<LoadLine, 2>>;

class Equilibrium {
 public:
  Equilibrium(const Model& m, const Accuracy& a);

  /// Solves with the triangles of `hot_quads` on the given load lines and all else cold. On success the state is
  /// updated, its shrink and axial forces included; on failure it is left as it was.
  SolveReport solve(Covering& state, const std::vector<int>& hot_quads, const HotLines& lines);

  /// The same from another first guess: `before` gives shrink, friction and the origin of slip, `guess` the rest, and
  /// receives the answer.
  SolveReport solve_from(const Covering& before, Covering& guess, const std::vector<int>& hot_quads,
                         const HotLines& lines);

  /// Least factor on cloth pull and member compression at which the structure buckles (docs/model.md, section 5), with
  /// its shape and its proof.
  Buckling buckling(const Covering& state);

  /// Tangent of cloth and frame at a state [N/m and the like], lower triangle; rows and columns of held unknowns hold
  /// one number on the diagonal, sliding points slide freely. Valid until the next call.
  const Sparse& tangent(const Covering& state);

  const Model& model() const { return model_; }
  const Accuracy& accuracy() const { return accuracy_; }

 private:
  void prepare_frame(const Covering& s);
  void follow_member_forces(Covering& s);
  SolveReport iterate(const Covering& before, Covering& guess, const std::vector<int>& hot_quads, const HotLines& lines,
                      bool follow);
  void take_state(const Covering& s);
  void give_state(Covering& s) const;
  void recentre();
  void heat(const std::vector<int>& hot_quads, const HotLines& lines);
  void refresh_hot(const std::vector<int>& hot_quads);
  void place_nodes(const Eigen::VectorXd& d);
  QuadSums assemble();
  void add_frame(const std::vector<BeamMatrix>& beams, double* values) const;
  void add_frame_force(const Eigen::VectorXd& d, Eigen::VectorXd& r) const;
  void add_nodal(const std::vector<Padded>& nodal, Eigen::VectorXd& r) const;
  void displace(const Eigen::VectorXd& d, std::vector<Padded>& u) const;
  double threshold(const SlidingPoint& p) const;
  double add_friction(const Covering& before, const Covering& s, int iteration);
  void advance(Covering& s);
  void hold(Eigen::VectorXd& residual, Held h) const;
  void hold_matrix(Sparse& k, Held h) const;
  Sparse geometric_at(const Covering& s);
  void accept(Covering& s) const;
  void certify(const Covering& before, const Covering& s, SolveReport& report) const;
  bool passes(SolveReport& report) const;
  bool tighten(const SolveReport& report);
  void forget_thresholds();
  void refresh_thresholds(int iteration);

  const Model& model_;
  Accuracy accuracy_, now_;  // as wished; as tightened for the solve at hand
  QuadLaw law_;
  LinearSolver linear_;
  Sparse matrix_;
  std::vector<BeamMatrix> frame_;   // elastic + geometric of each beam
  std::vector<ClothPoint> points_;  // of each triangle
  std::vector<QuadState> states_;
  std::vector<QuadWork> work_;
  std::vector<NodeBlock> blocks_, own_blocks_;
  std::vector<Padded> x_, du_;             // nodal
  std::vector<Padded> force_, predicted_;  // nodal, with N and with N + correction
  std::vector<FrictionStep> rub_;          // of each sliding point
  // Friction thresholds: in use, what the forces ask for, what they asked for beyond those in use and did before.
  Eigen::VectorXd thresholds_, asked_, change_, last_change_;
  double ratio_ = 0;     // of the last two changes
  int since_jump_ = 0;   // iterations
  Eigen::VectorXd residual_, rhs_, step_;
};

}  // namespace evenpull
