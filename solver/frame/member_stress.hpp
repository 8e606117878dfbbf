// Stress at one end of a member against what its material bears there: pulled and pressed fibre apart, less beside a weld
// (docs/model.md, section 7).
#pragma once

#include "solver/frame/beam.hpp"
#include "solver/statement/case.hpp"

namespace evenpull::inline solver {

/// What an end takes up of what it may.
struct EndUse {
  double use = 0;            ///< share of the allowable stress: the larger of the pulled and of the pressed fibre
  double allowed = 0;        ///< allowable stress of the fibre that governs [Pa]
  bool compression = false;  ///< the pressed fibre governs, and what it may bear is another than in tension
  bool at_weld = false;      ///< what is allowed is that beside a weld, which is less
};

/// Use at end 0 or 1 of a beam with section `s` there. Fibres: |M|c/I + N/A is the most pulled one, |M|c/I - N/A the most
/// pressed (N pull positive), each with the torsion shear by von Mises as in end_stress. `weld`: the end lies within
/// Material::weld_reach of one. Wood in compression: bending against the modulus of rupture plus push against the
/// compression strength (linear interaction, the usual careful one; from memory).
EndUse end_use(const Material& m, const Limits& l, const Section& s, const BeamForces& f, int end, bool weld);

/// Use of a wire at a stress of pull [Pa].
EndUse wire_use(const Material& m, const Limits& l, double pull);

}  // namespace evenpull::inline solver
