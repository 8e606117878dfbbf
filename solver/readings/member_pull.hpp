// How the cloth's pull is spread along the members: it reaches them in lumps at the joints of the mesh, and the moment
// that lumping takes off must be put back when stress is read (docs/model.md, section 7).
#pragma once

#include "solver/equilibrium/covering.hpp"

#include <vector>

namespace evenpull::inline solver {

/// Pull on each beam at its two ends [N/m], panel axes: what the cloth does to a joint, over the length that the joint
/// stands for. Where members meet, and at their ends, what a joint gets cannot be told apart; there the neighbours along
/// the member serve.
std::vector<BeamLoad> pull_on_beams(const Model& m, const Covering& s);

}  // namespace evenpull::inline solver
