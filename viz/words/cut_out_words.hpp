// What a case says of places without cloth and of ribs below it.
#pragma once

#include "solver/statement/case.hpp"

#include <string>

namespace evenpull::viz {

/// "rib 3", "ribs 2, 4": those that the cloth does not touch; empty if it touches all.
std::string low_ribs(const Case& c);

/// Where a pocket is, how deep, what its front is; on a tapered panel how deep it is reckoned at its sides.
std::string pocket_text(const Case& c, const Pocket& p);
std::string hinge_gap_text(const Case& c, const HingeGap& g);

}  // namespace evenpull::viz
