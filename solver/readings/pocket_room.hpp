// Room that a pocket in the trailing edge loses for its tab (docs/model.md, section 7).
#pragma once

#include "solver/readings/readings.hpp"

namespace evenpull::inline solver {

/// The pocket that loses most of its gap [m]: half of what its sides draw together, or how far its front bows aft between
/// its ends, whichever is more; against the gap as stated (0: told, not limited). member -1: there is no pocket.
WorstBow pocket_closing(const Model& m, const Covering& s);

}  // namespace evenpull::inline solver
