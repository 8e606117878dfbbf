// Straight 3-D beam between two joints: axial, two bendings with shear (Timoshenko), torsion, ends that turn against
// their joints on springs, by condensation, and its geometric stiffness under axial force (docs/model.md, section 5).
// Przemieniecki, Theory of Matrix Structural Analysis (1968), chapters 5 and 15, from memory; checked against closed
// forms in tests/published.
// Unknowns of an end: (u_x, u_y, u_z [m], theta_x, theta_y, theta_z [rad]) in panel axes.
#pragma once

#include "solver/statement/section.hpp"

#include <Eigen/Core>

#include <array>
#include <limits>

namespace evenpull::inline solver {

using BeamMatrix = Eigen::Matrix<double, 12, 12>;
using BeamVector = Eigen::Matrix<double, 12, 1>;

/// What a joint lets an end of a beam turn against it: moment / angle [N m/rad] in either bending. Infinite: not at all.
struct EndTurn {
  double up = std::numeric_limits<double>::infinity();
  double flat = std::numeric_limits<double>::infinity();
};
inline constexpr EndTurn hinge_end{0, 0};

struct BeamShape {
  Eigen::Vector3d from, to;  ///< m
  Eigen::Vector3d up;        ///< about which side "up" bending happens; made perpendicular to the axis
  Section section;
  double youngs_modulus = 0;  ///< Pa
  double shear_modulus = 0;   ///< Pa
  EndTurn turn_from{}, turn_to{};
  double twist_gain = 1;  ///< on G J/l, by ends that keep the section from warping
};

/// Elastic stiffness in panel axes.
BeamMatrix beam_stiffness(const BeamShape& b);

/// Geometric stiffness in panel axes for an axial force [N], pull positive, by the slope of the axis with that of shear
/// (Engesser). The softening of twist by P (I_p/A) is left out (docs/model.md, section 5).
BeamMatrix beam_geometric_stiffness(const BeamShape& b, double axial_force);

/// Strain energy [N m] of end displacements `u` (panel axes) without axial force, from how far the beam is stretched,
/// twisted and bent: a motion without strain gives the square of rounding, where u.K.u gives rounding itself.
double beam_energy(const BeamShape& b, const BeamVector& u);

/// Resultants of a beam, at its two ends.
struct BeamForces {
  double axial = 0;              ///< N, pull positive
  double twist = 0;              ///< N m
  double bend_up[2] = {0, 0};    ///< N m, bending up and down
  double bend_flat[2] = {0, 0};  ///< N m, bending in the panel's plane
};

/// Factor on G J/l of a member `length` long, one or both ends of which (`ends_held`) are kept from warping: half of what
/// perfectly held ones gain (judgement). 1 where the section has no warping constant. Of G J t' - E C_w t''' = T, t the
/// angle, T the torque (Vlasov, from memory): tanh u/u off 1 with u = L sqrt(G J/(E C_w)), half of L where both are held.
double gain_of_held_warping(const Section& s, double youngs_modulus, double shear_modulus, double length,
                            int ends_held);

/// Axial force alone [N], pull positive: EA/L times the stretch of its axis at end displacements `u` (panel axes).
double axial_force(const BeamShape& b, const BeamVector& u);

/// A load spread along a beam, straight from one end to the other [N/m], panel axes; what lies along the axis is ignored.
struct BeamLoad {
  Eigen::Vector3d from{0, 0, 0}, to{0, 0, 0};
};

/// Forces at end displacements `u` (panel axes), geometric stiffness under `axial_force` included. Where the joints moved
/// under a load that is spread along the beam, `load` restores what lumping it at the joints takes off the end moments
/// (q l^2/12 for an even one).
BeamForces beam_forces(const BeamShape& b, const BeamVector& u, double axial_force, const BeamLoad& load = {});

/// The same forces with both bendings as they are `inset` [m] inside of either end, at most its length: what lies nearer is
/// held by the member that it meets. The load counts as even.
BeamForces beam_forces_inside(const BeamShape& b, const BeamForces& at_ends, const BeamLoad& load,
                              const std::array<double, 2>& inset);

/// Worst equivalent stress at one end (0 or 1) with the section there [Pa]: sqrt((|N|/A + bending)^2 + 3 (T c/J)^2), von
/// Mises. Bending is sqrt(M_up^2 + M_flat^2) c/I on a round section, which is exact; elsewhere |M_up| c/I + |M_flat| c/I,
/// without regard to where on the section the parts peak.
double end_stress(const Section& s, const BeamForces& f, int end);

}  // namespace evenpull::inline solver
