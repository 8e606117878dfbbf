// What a tight bay answers to a tap and to a weight, by closed forms for a flat rectangle held at its border: what somebody
// can check on the bench with a ruler, a weight and an ear (docs/model.md, section 7).
#pragma once

namespace evenpull::inline solver {

/// Cloth free between ribs and between the members that run along the span. Small deflections: pulls stay as they are.
struct TightBay {
  double chordwise = 0;                  ///< free length along the chord [m]
  double spanwise = 0;                   ///< between the ribs [m]
  double pull_chord = 0, pull_span = 0;  ///< N/m, both positive
};

/// Sag [m] under a force [N] on a rigid disc of this radius [m] in the middle: w = P/(2 pi N) ln(rho/c), rho the conformal
/// radius of the rectangle, N = sqrt(Nx Ny) with both axes scaled by the root of their pull, in which the disc becomes an
/// ellipse (derived here; within 2 % for a radius up to a tenth of the short side and a ratio of pulls up to 4).
double sag_under_disc(const TightBay& bay, double force, double radius);

/// The least sag that cloth of this stiffness [N/m] can have there, since it is stretched as it sags: the energy of the
/// stretch with nothing giving way in the plane, (pi E/8)(w/ln(rho/c))^4 (1/c^2 - 1/rho^2), is more than it really takes
/// (derived here).
double least_sag_under_disc(const TightBay& bay, double force, double radius, double stiffness);

/// Share of rho times the short side that the air on one side of the lowest mode weighs per area (Rayleigh's integral for
/// a sine in a plane wall, derived here); `aspect` = long side/short side, taken as 4 beyond.
double air_on_bay(double aspect);

/// Lowest frequency [Hz] of a tap: f = 1/2 sqrt((Nx/a^2 + Ny/b^2)/(m + m_air)), m [kg/m^2], air of this density [kg/m^3] on
/// `air_sides` sides. Behind the cloth of a closed panel the air is shut in: between about half of both sides and more.
double tap_frequency(const TightBay& bay, double areal_mass, double air_density, double air_sides);

}  // namespace evenpull::inline solver
