// A buckling shape as the drawings and the plan need it.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "solver/equilibrium/buckling.hpp"
#include "solver/equilibrium/model.hpp"

#include <optional>
#include <string>

namespace evenpull::inline sequencer {

/// None where nothing buckles. `when` says of which state it is.
std::optional<BucklingMode> buckling_mode(const Model& m, const Buckling& b, Moment when);

}  // namespace evenpull::inline sequencer
