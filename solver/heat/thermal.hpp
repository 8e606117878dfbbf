// Heat properties of what the iron meets: cloth, metal, wood, still air. Numbers and marks: docs/data.md, iron and heat.
#pragma once

#include "solver/statement/case.hpp"

namespace evenpull::inline solver {

/// Specific heat of polyester between room and ironing temperature [J/(kg K)].
inline constexpr double cloth_specific_heat = 1300;

/// Of the idealised iron: losses of a hot iron to the room are this conductance [W/K] times its excess temperature.
inline constexpr double idle_loss = 0.7;

/// Heat properties of a structural material: its own if it states them, else those of aluminium, steel or wood by kind
/// and stiffness.
HeatSolid heat_of(const Material& m);

/// Still air and radiation from a level face [W/(m^2 K)], emissivity 0.9, linear through the computed table of
/// docs/data.md and held constant beyond its ends.
double air_conductance(double surface_temperature, bool facing_up);

/// Time in which cloth in the open falls by 1 - 1/e of its excess temperature once the iron has left [s].
double cooling_time(double areal_mass, double mean_temperature);

}  // namespace evenpull::inline solver
