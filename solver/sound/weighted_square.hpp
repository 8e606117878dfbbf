// A square of cloth held flat on all four sides, with a weight on a rigid disc in its middle: how far it sags, and
// back.
#pragma once

namespace evenpull::inline solver {

struct WeightedSquare {
  double side = 0;    ///< free cloth from side to side [m]
  double radius = 0;  ///< of the disc [m]
};

/// Discs for which what follows holds, radius over side: below, the cloth at the rim is stretched past the law used
/// here; above, nothing was computed. Judgement.
inline constexpr double least_disc = 0.05, largest_disc = 0.2;

/// ln(rho/c), rho = 0.539353 b the conformal radius of the square: see sag_under_disc.
double disc_reach(const WeightedSquare& square);

/// Pull [N/m] that this sag [m] under this force [N] would be if the sag stretched nothing: P ln(rho/c)/(2 pi w).
double pull_of_sag(const WeightedSquare& square, double force, double sag);

/// k [N/m^3] in that pull = N + k w^2, for woven cloth of this stiffness [N/m] each way. The energy bound of
/// least_sag_under_disc times the share of it that a mesh of the membrane really takes (stretch 0.2 of the other way,
/// shear 1/20 of the stiffness; docs/model.md, section 11). Stiff shear would add a third.
double pull_by_sagging(const WeightedSquare& square, double stiffness);

/// Sag [m] of cloth of pull N with that k: P = (2 pi/ln(rho/c)) (N w + k w^3).
double sag_of_square(const WeightedSquare& square, double force, double pull, double by_sagging);

}  // namespace evenpull::inline solver
