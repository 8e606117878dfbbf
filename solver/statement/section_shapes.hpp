// Where the walls of a shape lie: what is computed from and what is drawn.
#pragma once

#include "solver/statement/section_walls.hpp"

namespace evenpull::inline solver {

/// Made of sheet, so that `walls_of` knows it.
bool is_of_sheet(SectionShape::Kind kind);

/// Middle lines of a sheet rib, folded edge, channel, angle or hat, from the sizes that a tape measures [m]. `height`:
/// that of the shape, or the panel's where the shape leaves it open. Of a folded edge the fold lies at the greatest x.
///
/// A sheet rib is measured as always here, height and flange to the middle of the sheet; channel, angle and hat are
/// measured over all, but for a hat's flanges, which are measured from the outside of its webs. A folded edge without a
/// radius is measured along its legs to the sharp fold, with one from the outside of the fold, as a rule lies on the
/// leg. `opening` is measured between the middles of the legs.
WallSection walls_of(const SectionShape& shape, double height);

/// Diameter of the lightening holes where the rib is so high: what would leave too little of the web is not cut [m].
double hole_at(const SectionShape& shape, double height);

/// Clear height between the two caps of an I section, capstrip or truss rib; 0 where they meet and are one solid piece
/// [m].
double between_caps(const SectionShape& shape, double height);

}  // namespace evenpull::inline solver
