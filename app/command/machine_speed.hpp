// How fast this machine is just now.
#pragma once

#include "solver/statement/case.hpp"

namespace evenpull {

/// How many times as long this machine takes for the solver's work as the one on which estimates were measured: the first zones on
/// a coarse mesh of the case, a fraction of a second. 1 where that finds no equilibrium. Throws CaseError as a plan does.
double times_as_slow(const Case& c);

}  // namespace evenpull
