// What is assumed of a polyester cloth about which only its weight is known (ours; bands are wide: a coupon test of the
// user's own cloth should replace the pull above all).
#pragma once

#include <array>

namespace evenpull::cloth_defaults {

/// The numbers below are for plain weave of this areal mass [kg/m^2]; pull and stiffness scale with the mass.
constexpr double reference_mass = 0.092;
constexpr double stiffness = 100e3;  ///< N/m each way, after tautening; band 80 to 200 kN/m (estimate)
constexpr double shear = 5e3;        ///< N/m; band 0.5 to 10 kN/m (estimate)
constexpr double poisson = 0.2;      ///< band 0.05 to 0.4 (estimate)
constexpr double looseness = 0.01;   ///< each way; band 0 to 3 % (estimate)
constexpr double half_time = 0.5;    ///< s of the shrink at a stage's temperature; band 0.1 to 1 s (estimate)
constexpr double activation = 30e3;  ///< J/mol, apparent, on the way there; band 0 to 60 kJ/mol (estimate)

/// Areal mass by class of cloth [kg/m^2]: light, medium, heavy (1.8, 2.7, 3.5 oz/yd^2; from memory).
constexpr std::array<double, 3> class_mass{0.060, 0.090, 0.120};

struct CurvePoint {
  const char* temperature;
  double free_shrink;  ///< engineering fraction
  double pull;         ///< N/m at the reference mass
};
/// Free shrink at 250 and 350 degF after the public handbook FAA-H-8083-31 (about 5 and 10 %), 300 between them; pull
/// is an estimate (docs/data.md): 420 and 600 N/m are near the middle of what can be estimated, 900 is kept on the safe
/// side of about 800; two sigma are x 0.53 to x 1.9. Onset just above the glass transition of polyester (70 to 80 degC).
constexpr std::array<CurvePoint, 4> curve{
    {{"80 degC", 0, 0}, {"250 degF", 0.05, 420}, {"300 degF", 0.075, 600}, {"350 degF", 0.10, 900}}};

}  // namespace evenpull::cloth_defaults
