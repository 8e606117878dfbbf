// What is said when a solve is given up: which test was not passed, and what in the case to look at.
#pragma once

#include "solver/equilibrium/equilibrium.hpp"

#include <string>

namespace evenpull::inline solver {

/// The error for a solve of the step `label` that did not converge.
NotConverged given_up(const Model& m, const SolveReport& r, const SolveName& label);

}  // namespace evenpull::inline solver
