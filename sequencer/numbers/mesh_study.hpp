// What a number would be on an endlessly fine mesh, and how far off the finest one may be: Richardson extrapolation and
// the grid convergence index. Roache (1994) and the procedure of Celik et al., J. Fluids Eng. 130, 078001 (2008), both
// from memory; the same formulas stand in ASME V&V 20.
#pragma once

#include <vector>

namespace evenpull::inline sequencer {

/// One run: edge length of the elements (any unit, positive) and the number read off.
struct MeshLevel {
  double size = 0;
  double value = 0;
};

/// How the levels behave.
enum class Approach {
  settling,    ///< steps of one sign that shrink: the order was observed
  wavering,    ///< steps of both signs, or steps that grow: no order, the spread is the error bar
  unchanging,  ///< no step above rounding
  assumed,     ///< two levels only: the order was given, not observed
};

struct MeshStudy {
  Approach approach = Approach::unchanging;
  double order = 0;       ///< observed, or given with two levels; 0 where there is none
  double value = 0;       ///< extrapolated; the finest value itself where no order was observed
  double plus_minus = 0;  ///< error of the finest value: safety factor x distance of the extrapolated one
};

/// `levels` from coarse to fine, two or more; only the three finest count. `theory` is the order that theory promises: it
/// is used with two levels, and an observed order above it is not believed.
MeshStudy study_meshes(const std::vector<MeshLevel>& levels, double theory);

}  // namespace evenpull::inline sequencer
