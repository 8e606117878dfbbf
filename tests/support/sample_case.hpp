// Small invented cases for tests of the solver; numbers of no aircraft.
#pragma once

#include "solver/statement/case.hpp"

namespace evenpull::sample {

/// Cloth of 92 g/m^2 of its own: 100 kN/m both ways, 1 % loose, 350/600/900 N/m at 250/300/350 F. What stored answers rest
/// on; the defaults of the program are others.
Cloth cloth();

/// A panel of `bays` bays with tube spars: a stiff LE tube with a metal nose, a light TE, plain ribs, full wrap.
/// span and chord in m.
Case aileron(int bays = 6, double span = 1.8, double chord = 0.35);

/// As `aileron` with light tubes throughout.
Case light_rudder(int bays = 6);

/// Frame so stiff that it does not move: for checks of the cloth alone.
void make_rigid(Case& c);

}  // namespace evenpull::sample
