// Where the wing goes on beyond the panel: docs/model.md, section 5. The bay beyond is the mirror image of the one within,
// so that the rib between them stays in the plane of the mirror: its joints, and the cloth on it, neither leave that plane
// nor turn out of it. The plane itself may move and tilt, for nothing outside holds the wing: no net pull and no moment
// goes across it but what the supports of the case take.
#pragma once

#include "solver/equilibrium/unknowns.hpp"
#include "solver/frame/beam.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <vector>

namespace evenpull::inline solver {

/// Whether a column of the mesh lies in the plane of a mirror.
bool in_mirror(const Case& c, int column, int columns);
/// The same of a beam, both joints.
bool in_mirror(const Case& c, const Panel& p, const Beam& b);

/// What keeps the two joints of a beam in one plane [N/m, N m and the like]: far stiffer than cloth and members, and not so
/// stiff that rounding shows.
BeamMatrix plane_stiffness(const Case& c, const Panel& p, const Beam& b);

/// Adds to unknowns that are held: creep along the span in a mirror, and of the plane itself what nothing else holds.
void hold_mirrors(const Case& c, const Panel& p, const Unknowns& u, std::vector<int>& held);

}  // namespace evenpull::inline solver
