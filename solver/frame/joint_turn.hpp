// What the joints at the ends of ribs and braces let turn: from how they are made to springs (docs/model.md, section 5).
// alpha = k L/(E I): the moment that turns a joint by one radian, k, over E I/L of the member that ends there.
#pragma once

#include "solver/frame/beam.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline solver {

/// alpha of a joint in one bending. Infinite: it does not turn.
struct TurnRange {
  double low = 0, usual = 0, high = 0;
};

/// In both bendings of the member.
struct JointTurn {
  TurnRange up, flat;
};

/// What a joint is measured by: the member that ends in it.
struct JoinedMember {
  SectionShape shape;
  bool metal = true;
  bool is_rib = true;
  double youngs_modulus = 0;                ///< Pa
  double bending_up = 0, bending_flat = 0;  ///< E I/L with the section at the joint [N m]
};

/// Smallest alpha that is drawn: an even load leaves half a hundredth of a rigid joint's moment there.
inline constexpr double least_alpha = 0.01;

/// Flexibility of one fastener in single shear between two sheets [m/N], riveted metal. Huth (1986), the form from memory,
/// its constants seen as reprint:
///   C = ((t1 + t2)/(2 d))^(2/5) 2.2 (1/(t1 E1) + 1/(t2 E2) + 1/(2 t1 E_f) + 1/(2 t2 E_f))
/// t: thickness of the sheets [m], d: diameter of the fastener [m], E and E_f: moduli of sheets and fastener [Pa].
double fastener_flexibility(double t1, double t2, double d, double e1, double e2, double e_fastener);

/// Sum r^2 [m^2] about their middle of n fasteners evenly in a line whose ends stand `spacing` [m] apart.
double square_distances(int fasteners, double spacing);

/// alpha of a joint by what it is, with its range (docs/data.md, joints; judgement).
JointTurn turn_of(const JointMake& j, const JoinedMember& m);

/// Whether such joints differ among themselves: all but those stated as rigid or pinned.
bool has_range(JointKind kind);

/// alpha at a place in its range: 0 low, 1 high, between by equal ratios (no less than least_alpha); none: as usual.
double alpha_at(const TurnRange& r, const std::optional<double>& at);

/// Kinds with a range that a case has, in the order of their kinds. Those of a rib in whose place a tip bow stands do not
/// count.
std::vector<JointKind> joints_that_vary(const Case& c);

/// Puts all joints of a kind at one place in their range (JointMake::at), in both bendings.
void put_joints(Case& c, JointKind kind, double at);

/// Draws all joints of a kind by one number in sigmas: evenly over their range, but bending up by what weights told of it
/// (JointMake::told_up) where they did. In the plane of the panel they told next to nothing (docs/model.md, section 14).
void draw_joints(Case& c, JointKind kind, double sigmas);

/// At one end of the range; bending up, where weights told of it, two sigma off what they told.
void put_joints_at_end(Case& c, JointKind kind, bool softest);

/// Says of all joints of a kind what weights told.
void tell_joints(Case& c, JointKind kind, const JointTold& up);

/// Place in a range of a number in sigmas: the share of a normal distribution below it.
double place_of_sigmas(double sigmas);

/// Whether such a joint keeps the flanges of a member's end from warping.
bool holds_flanges(const JointMake& j);

/// The member that ends in a joint: rib or brace as built into a panel of the case; `first`: at its front or first end.
JoinedMember joined_rib(const Case& c, const Panel& p, int rib, bool first);
JoinedMember joined_brace(const Case& c, const Panel& p, int brace, bool first);

/// How a beam ends.
struct BeamEnds {
  EndTurn from{}, to{};
  double twist_gain = 1;
};

/// Of each beam of a panel built from the case. Beams that are pinned by Beam::hinge_from and hinge_to included.
std::vector<BeamEnds> beam_ends(const Case& c, const Panel& p);

}  // namespace evenpull::inline solver
