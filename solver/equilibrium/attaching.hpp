// Cloth that is fastened to inner ribs in the course of the work: docs/model.md, section 6. Until then it slides over them
// against friction; from then on it stays where it lies at that moment, so that fastening it moves and strains nothing.
#pragma once

#include "solver/equilibrium/covering.hpp"
#include "solver/equilibrium/model.hpp"

#include <vector>

namespace evenpull::inline solver {

/// Whether the cloth can be fastened to a rib: an inner one that it touches. To end ribs it is glued by itself.
bool can_be_fastened(const Case& c, int rib);

/// Of stitches, rivets and screws along a rib where nobody says [m]; common practice, no source.
inline constexpr double usual_spacing = 2.5 * 0.0254;

/// Indices into Unknowns::sliding that an attachment holds on this mesh. Of fastenings at a spacing the point nearest to
/// each, counted from the foremost one of a rib and side; a mesh as coarse as the spacing has the whole line held.
std::vector<int> points_of(const Model& m, const Attachment& a);

/// Fastens what the case has fastened by the time that a stage of this true temperature [K] begins; 0: as laid on. What is
/// fastened already stays so.
void attach_before(const Model& m, double temperature, Covering& s);

}  // namespace evenpull::inline solver
