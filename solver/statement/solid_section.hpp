// Sections of round tubes and of solid wood. Lengths in m.
#pragma once

#include "solver/statement/section.hpp"

namespace evenpull::inline solver {

/// Round tube. Shear area by Cowper (J. Appl. Mech. 33, 1966: hollow circle; from memory).
Section tube_section(double outside, double wall);

/// Solid rectangle. Torsion by Roark's fit to Saint-Venant's series (Roark's Formulas for Stress and Strain, table of
/// torsion, from memory); shear area 5/6 A by energy.
Section bar_section(double width, double height);

/// Solid triangle, `height` at the front and to nothing over `width`. Torsion by Roark (same table, from memory): that
/// of an isosceles triangle, or of an elongated trapezoid that ends in a point; stress at the middle of the longest
/// side.
Section triangle_section(double width, double height);

}  // namespace evenpull::inline solver
