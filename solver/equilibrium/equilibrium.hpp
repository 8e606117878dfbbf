// Equilibrium of cloth, frame and friction by a primal-dual Newton method (docs/model.md, sections 2, 5, 6 and 9).
// Unknowns: d (all kinematic unknowns), per triangle N and S with C N - e - ds = S and N S = beta I (condensed triangle
// by triangle), friction force f per sliding point with f max(eps, |dq|) = tau dq, tau refreshed each iteration.
#pragma once

#include "solver/equilibrium/assembly.hpp"
#include "solver/equilibrium/buckling.hpp"
#include "solver/equilibrium/covering.hpp"
#include "solver/equilibrium/friction.hpp"
#include "solver/equilibrium/sliding.hpp"
#include "solver/equilibrium/solve_options.hpp"
#include "solver/numerics/linear_solver.hpp"

#include <vector>

namespace evenpull::inline solver {

class Equilibrium {
 public:
  Equilibrium(const Model& m, const SolveOptions& a);

  /// Solves with the triangles of `hot_quads` on the given load lines and all else cold. On success the state is
  /// updated, its shrink and axial forces included; on failure it is left as it was.
  SolveReport solve(Covering& state, const std::vector<int>& hot_quads, const PanelLoadLines& lines);

  /// The same from another first guess: `before` gives shrink, friction and the origin of slip, `guess` the rest, and
  /// receives the answer.
  SolveReport solve_from(const Covering& before, Covering& guess, const std::vector<int>& hot_quads,
                         const PanelLoadLines& lines);

  /// Least factor on cloth pull and member compression at which the structure buckles (docs/model.md, section 5), with
  /// its shape and its proof.
  Buckling buckling(const Covering& state);

  /// Tangent of cloth and frame at a state [N/m and the like], lower triangle; rows and columns of held unknowns hold
  /// one number on the diagonal, sliding points slide freely. Valid until the next call.
  const Sparse& tangent(const Covering& state);

  const Model& model() const { return model_; }
  const SolveOptions& options() const { return options_; }

 private:
  SolveReport iterate(const Covering& before, Covering& guess, const std::vector<int>& hot_quads,
                      const PanelLoadLines& lines, bool follow);
  double add_friction(const Covering& before, const Covering& s, int iteration);
  void advance(Covering& s);
  void accept(Covering& s) const;
  bool passes(SolveReport& report) const;
  bool tighten(const SolveReport& report);

  const Model& model_;
  SolveOptions options_, now_;  // as wished; as tightened for the solve at hand
  Assembly cloth_and_frame_;
  LinearSolver linear_;
  std::vector<FrictionStep> rub_;  // of each sliding point
  SlidingThresholds thresholds_;
  Eigen::VectorXd residual_, rhs_, step_;
};

}  // namespace evenpull::inline solver
