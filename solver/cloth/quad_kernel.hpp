// One Newton iteration of the cloth, quad by quad: the four triangles over a quad are worked at once, one a lane
// (docs/model.md, section 2; the same formulas one triangle at a time are in membrane.hpp and fabric_law.hpp).
#pragma once

#include "solver/cloth/quads.hpp"

namespace evenpull::inline solver {

/// Linearises the law of every quad about its state at nodal positions `x`.
QuadSums evaluate_quads(const std::vector<QuadShape>& shapes, const std::vector<QuadState>& states, const Padded* x,
                        const QuadLaw& law, std::vector<QuadWork>& work, const QuadTargets& out);

/// Moves N and S of every quad for a step `du` of the nodes, each shortened so that it stays positive definite.
void advance_quads(const std::vector<QuadShape>& shapes, const std::vector<QuadWork>& work, const Padded* du,
                   double smoothing, std::vector<QuadState>& states);

}  // namespace evenpull::inline solver
