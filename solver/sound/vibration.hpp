// Small vibrations of tight cloth about a state of equilibrium: (K - omega^2 (M + rho sides V)) x = 0, K the tangent at
// the state (docs/model.md, section 2), M the mass of the cloth, consistent with its linear triangles, V the air that
// moves along (air_mass.hpp). Joints of the frame stay at rest, cloth sticks where it could slide: the motion of a tap
// is far below what overcomes friction, and a member far heavier than the cloth on it. Not in it: damping, the
// stiffness of air shut in between two skins, the air that both skins move together.
#pragma once

#include "solver/equilibrium/equilibrium.hpp"

#include <vector>

namespace evenpull::inline solver {

struct VibrationOptions {
  double areal_mass = 0;  ///< of the cloth, dope included [kg/m^2]
  std::vector<int> quads =
      {};         ///< cloth that vibrates, of one side; all nodes that other quads share are at rest. Empty: all
  int modes = 1;  ///< how many, from the lowest frequency
  double air_density = 0;  ///< kg/m^3; 0 = in vacuum
  double air_sides = 2;    ///< 1 or 2: how many sides of the cloth face open air
};

struct Vibration {
  double frequency = 0;   ///< Hz
  Eigen::VectorXd shape;  ///< all unknowns; the largest displacement is +1
  double cloth_mass = 0;  ///< x' M x [kg]
  double air_volume = 0;  ///< x' V x: times density and sides, the moving mass of the air [m^3]
  double residual = 0;    ///< relative error bound of omega^2 from the residual of the eigenvalue problem
};

/// Mass matrix of some quads of cloth over all unknowns [kg], pattern of the tangent, lower triangle.
Sparse cloth_mass(const Model& m, const std::vector<int>& quads, double areal_mass);

/// Lowest natural vibrations, rising in frequency. Throws NotConverged where the tangent is not positive definite or
/// the modes were not found.
std::vector<Vibration> natural_vibrations(Equilibrium& e, const Covering& state, const VibrationOptions& options);

/// Frequency of a vibration found in vacuum with the mass of the air added mode by mode, shape unchanged [Hz]: an upper
/// bound of the frequency in air.
double frequency_with_air(const Vibration& in_vacuum, double air_density, double air_sides);

}  // namespace evenpull::inline solver
