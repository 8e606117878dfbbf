// How a bay of a panel sounds when it is tapped, over its pull and the air that moves along: one mode in vacuum, its
// stiffness, and masses of air for what can lie behind the cloth (docs/model.md, section 12). The shape of the mode is
// kept while pull and air change; its frequency is then an upper bound, 0.3 % above that of the shape bent by the air
// (tests/published/test_membrane_in_air.cpp).
#pragma once

#include "solver/equilibrium/equilibrium.hpp"
#include "solver/sound/free_field.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline solver {

/// One skin of one bay. The mode is scaled so that its largest displacement is 1, so that masses are volumes and areas.
struct BayTone {
  FreeField field;
  double pull_chord = 0, pull_span = 0;  ///< mean of the field at the state [N/m]
  double chord_weight = 0;               ///< share of the chordwise pull in the tone: (Nx/a^2)/(Nx/a^2 + Ny/b^2)
  double frequency = 0;                  ///< at the state, in vacuum [Hz] for 1 kg/m^2
  double area = 0;             ///< mode squared over the cloth [m^2]: times its mass per area, the moving mass
  double stiffness = 0;        ///< of the mode at the state [N/m]
  double shape_stiffness = 0;  ///< of that the part that does not grow with the pull: the cloth is curved [N/m]
  double wall_air = 0;         ///< one face, all round in a wall [m^3]: times the density, the moving mass
  double free_air = 0;         ///< both faces together, the skin standing free in the air [m^3]
  double behind = 0;           ///< mode squared times the depth behind it, over the cloth [m^3]
  double depth = 0;            ///< mean depth behind the field, to the other skin [m]
  double swept = 0;            ///< volume that the mode sweeps [m^2 per m of its largest displacement]
  double enclosed = 0;         ///< between the skins of the bay, from rib to rib [m^3]
};

/// Sides and bays whose fields are tight at the state; the others are none. Throws NotConverged where no mode is found.
std::vector<std::optional<BayTone>> bay_tones(Equilibrium& e, const Covering& state,
                                              const std::vector<std::pair<Side, int>>& bays);

/// The same bay on a mesh of no size, from two meshes: stiffness and air in a wall go with the square of the quads'
/// edge, air that goes round with the edge (Richardson). Six quads across a bay alone sound 3 % high.
BayTone between_meshes(const BayTone& coarse, const BayTone& fine);

/// Stiffness of the mode with all pulls times this [N/m].
inline double stiffness_at(const BayTone& t, double pull_times) {
  return t.shape_stiffness + (t.stiffness - t.shape_stiffness) * pull_times;
}

/// Frequency [Hz] with all pulls times this, cloth of this mass per area [kg/m^2] and this mass of air [kg].
double tone_of(const BayTone& t, double pull_times, double areal_mass, double air_mass);

/// The pull, times that of the state, at which the bay sounds so; 0 or less: no pull is so low.
double pull_of(const BayTone& t, double frequency, double areal_mass, double air_mass);

/// Between which volumes [m^3] the air lies that moves with the skin.
struct AirBetween {
  double least = 0, most = 0;
};

/// Nothing behind: from the skin alone in free air to deep ribs that hold the air behind it as walls do, and walls in
/// front.
AirBetween air_open_behind(const BayTone& t);

/// The other skin behind. Least: both skins go the same way and carry the air between (ribs tight, pulls alike); of
/// its mass each skin bears half. Most: the air is pushed along through the ribs, `most_air_sides` of a face in a wall.
AirBetween air_shut_in(const BayTone& t);

/// What of both faces in a wall the air behind a closed panel's cloth can come to: 1.25 of them; judgement.
inline constexpr double most_air_sides = 2.5;

/// Stiffness of air shut into a volume when something sweeps into it, adiabatic [N/m]: gamma p swept^2/volume
/// (Helmholtz's resonator; Rayleigh, Theory of Sound, section 303, from memory).
double shut_in_stiffness(double swept, double volume);

/// Share of the air shut in between two skins in the stiffness of their lowest common tone, 0 to 1; ribs as if tight.
/// `other` none: what lies behind does not give.
double share_of_shut_in_air(const BayTone& tapped, const BayTone* other, double areal_mass, double air_density);

}  // namespace evenpull::inline solver
