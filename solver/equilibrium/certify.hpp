// How certain an answer is: docs/model.md, section 2.
#pragma once

#include "solver/cloth/fabric_law.hpp"
#include "solver/equilibrium/covering.hpp"
#include "solver/equilibrium/sliding.hpp"
#include "solver/equilibrium/solve_report.hpp"

#include <vector>

namespace evenpull::inline solver {

/// An answer, and what it was found with.
struct Answer {
  const Covering& before;                 ///< the state that the solve started from
  const Covering& state;                  ///< pull, wrinkle strain, unknowns and friction of the answer
  const std::vector<ClothPoint>& points;  ///< of each triangle
  const std::vector<Padded>& places;      ///< of each cloth node [m]
  const std::vector<BeamMatrix>& frame;   ///< elastic + geometric of each beam
  const SlidingThresholds& thresholds;
};

/// Fills in gap, its share of friction, energy and the bound on the pull.
///
/// The gap between the energy of the answer's shape, its wrinkle strain chosen anew, and that of its tension:
/// f*(e + S') - N:e + f(N) <= N:(S - d) + 1/2 (d + m):C^-1:(d + m) for any S' = S - d >= 0, where m is what the law is
/// still off by and f* bends by no more than C^-1. Of three choices of d the best: nothing, all of S, its smaller part.
/// Derived here from the duality of docs/model.md, section 2; friction adds tau |dq| - f dq.
void certify(const Model& m, const Answer& a, SolveReport& report);

}  // namespace evenpull::inline solver
