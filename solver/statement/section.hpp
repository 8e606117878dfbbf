// Cross sections of members: from shapes a workshop measures to the numbers a beam needs.
#pragma once

#include <vector>

namespace evenpull::inline solver {

/// Properties of a section. "up" is bending up and down (out of the panel's plane), "flat" is bending in the panel's
/// plane. stress = |N|/area + that of both bendings, |M_up| reach_up/inertia_up and |M_flat| reach_flat/inertia_flat (a
/// round section: root of the sum of squares, else the sum); torsion shear = |T| reach_twist/torsion.
struct Section {
  double area = 0;          ///< m^2
  double inertia_up = 0;    ///< m^4
  double inertia_flat = 0;  ///< m^4
  double torsion = 0;       ///< St Venant constant J [m^4]
  double reach_up = 0;      ///< distance of the outermost fibre [m]
  double reach_flat = 0;    ///< m
  double reach_twist = 0;   ///< J / torsional modulus [m]
  bool round = false;       ///< the rim is a circle: two bendings are one, about the axis of their resultant
  double shear_up = 0;      ///< effective area kappa A of shear up and down [m^2]; 0: no shear deflection
  double shear_flat = 0;    ///< m^2
  double warping = 0;       ///< warping constant C_w [m^6]; 0: twist is resisted by J alone
};

/// A section as a workshop describes it. Lengths in m.
struct SectionShape {
  enum class Kind {
    tube,       ///< round tube: outside_diameter, wall
    bar,        ///< solid rectangle: width (in the panel's plane), height (0 = the panel's local thickness)
    sheet_rib,  ///< pressed sheet rib: web of sheet thickness `wall`, two flanges `width` wide; height 0 = local thickness
    folded_edge,  ///< sheet `wall` folded to a V, legs `width`, open height `height`: a trailing edge
    closed_nose,  ///< closed D of skin `wall` from the LE to the member's chord fraction, with a web of `wall` (`web` if set)
    properties,  ///< `given` as measured or computed elsewhere
    channel,     ///< sheet `wall`: web upright, height `height` (0 = local thickness), two flanges `width` to one side
    angle,       ///< sheet `wall`: one leg upright `height`, one in the panel's plane `width`
    hat,         ///< sheet `wall`: top `width`, height `height`, two flanges `flange` outward from outside the webs
    i_section,   ///< web `web` upright between two caps `width` wide, `wall` thick; outer height `height` (0 = local)
    triangle,    ///< solid wooden edge: `height` at the front, to nothing over `width` (back)
    capstrip_rib,  ///< two caps `width` wide and `wall` thick, outer height `height` (0 = local), on a web `web` thick
    truss_rib      ///< the same caps joined by a lattice of square sticks `web` instead of a web: an equivalent section
  };
  Kind kind = Kind::tube;
  double outside_diameter = 0;
  double wall = 0;
  double width = 0;
  double height = 0;
  double flange = 0;        ///< of a hat: width of each outward flange
  double web = 0;           ///< thickness of a web that differs from `wall`
  double fold_radius = 0;   ///< inside radius of bends; with one, a folded edge's legs run from outside the fold
  double lip = 0;           ///< width of the lip turned in at each flange of a sheet rib
  double hole = 0;          ///< diameter of lightening holes in the web of a sheet rib
  double hole_spacing = 0;  ///< their pitch along the rib; of a truss rib: how far one diagonal reaches
  Section given;
};

/// Section of a shape; `local_depth` [m] stands in for a height of 0. Not for closed_nose.
Section section_of(const SectionShape& shape, double local_depth);

/// A point on the middle line of a thin closed wall [m].
struct SectionPoint {
  double x = 0, z = 0;
};

/// Thin closed wall of one cell and constant thickness `sheet` [m]; Bredt's formulas, J = 4 A^2 t / s.
/// "up" is bending along z, "flat" along x, both about the centroid without turning to principal axes.
Section closed_section(const std::vector<SectionPoint>& outline, double sheet);

}  // namespace evenpull::inline solver
