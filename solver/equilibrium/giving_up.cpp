#include "solver/equilibrium/giving_up.hpp"

#include <algorithm>

namespace evenpull::inline solver {
namespace {

const char* const advice_on_friction =
    "friction is what does not settle: check blanket.edge_friction, blanket.wrap_angle and blanket.rib_friction; cloth "
    "that cannot slide round the trailing edge at all is stated by blanket.edge_tacked = true";
const char* const advice_on_stiffness =
    "warp and fill differ very much in stiffness: check cloth.stiffness, best on a strip of each";
const char* const advice_on_loose_cloth =
    "loose cloth is what stays uncertain: check cloth.looseness against the free shrink of the coolest stage, and "
    "cloth.stiffness";
const char* const advice_on_frame =
    "look at the survey drawing for a member or a rib that is much too light, check the supports, and try another mesh "
    "(mesh.nodes)";

double unequal(const Yarns& stiffness) {
  return std::max(stiffness.warp, stiffness.fill) / std::min(stiffness.warp, stiffness.fill);
}

const char* advice_on(const Model& m, const SolveReport& r) {
  constexpr double much = 3;  // judgement: yarns of one cloth seldom differ by more
  if (r.failed == Test::friction) return advice_on_friction;
  if (r.failed != Test::certainty) return advice_on_frame;
  if (r.friction_gap > 0.5 * r.gap) return advice_on_friction;
  return unequal(m.the_case.cloth.stiffness) > much ? advice_on_stiffness : advice_on_loose_cloth;
}

}  // namespace

NotConverged given_up(const Model& m, const SolveReport& r, const SolveName& label) {
  return {r.failed == Test::certainty ? "the pull of the cloth is not certain enough" : "no equilibrium was found",
          label, r.iterations, r.missed, advice_on(m, r)};
}

}  // namespace evenpull::inline solver
