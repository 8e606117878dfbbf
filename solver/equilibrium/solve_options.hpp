// When an equilibrium is accepted: docs/model.md, sections 2 and 9.
#pragma once

#include "solver/equilibrium/model.hpp"
#include "solver/equilibrium/solve_report.hpp"

#include <functional>

namespace evenpull::inline solver {

/// Numbers that decide when an equilibrium is accepted.
struct SolveOptions {
  double smoothing = 1e-3;     ///< beta [N/m]: tension error bound sqrt(4 beta / lambda_min(C)), 20 N/m at 100 kN/m
  double start_smoothing = 0;  ///< beta that a solve starts with and comes down from, unless all is tight; 0: the same
  double force_tolerance = 5e-4;     ///< N, largest out-of-balance force of any unknown (moments: over 1 m)
  double tension_tolerance = 0.1;    ///< N/m, largest change that the law still asks for at unchanged strain
  double friction_tolerance = 2e-3;  ///< largest |f - law| / (tau + least_threshold)
  double least_threshold = 1;        ///< N: friction below it is measured by it
  double sliding_width = 2e-7;       ///< eps [m]
  int most_iterations = 80;
  bool member_forces_held = false;  ///< geometric stiffness under the members' forces of the state before
  double tension_bound = 0;         ///< N/m rms: an answer whose bound is wider is sharpened or not accepted; 0: any
  std::function<void(const SolveReport&)> watch;  ///< called each iteration, for diagnosis
};

/// What orders are compared with: loose cloth keeps no more pull than Model::loose_pull, and tolerances scale with the pull
/// of the cloth and the size of the panel. Not so what friction is measured by: on small panels that would ask for more
/// than the iteration can give.
SolveOptions usual_options(const Model& m);

/// The tension error [N/m rms] that every solve of a printed plan is certified to stay within: 2 N/m where the cloth
/// pulls as usual, in proportion where it pulls much more or much less (docs/model.md, section 2).
double certified_tension(const Case& c);

/// SolveOptions whose every answer is certified to `certified_tension`.
SolveOptions certified_options(const Model& m);

/// Of the gap that a certificate allows, what smoothing may take; the rest is for friction.
inline constexpr double share_of_cloth = 0.7;

}  // namespace evenpull::inline solver
