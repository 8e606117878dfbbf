#include "solver/heat/thermal.hpp"

#include <algorithm>

namespace evenpull::inline solver {
namespace {

constexpr double zero_celsius = 273.15;

// From memory, handbook values near 100 degC: 2024-T3 (conductivity 121), 4130, spruce across the grain.
constexpr HeatSolid aluminium{121, 2780, 875};
constexpr HeatSolid steel{42.7, 7850, 477};
constexpr HeatSolid wood{0.11, 420, 1600};
constexpr double stiffest_light_metal = 100e9;  // Pa: aluminium below, steel above

// Air and radiation, computed for a 75 mm length and emissivity 0.9 in a room of 20 degC: at 121 and 177 degC.
constexpr double table_low = zero_celsius + 121, table_high = zero_celsius + 177, table_least = zero_celsius + 40;
constexpr double up_low = 16.5, up_high = 19.7, down_low = 12.5, down_high = 15.3;

}  // namespace

HeatSolid heat_of(const Material& m) {
  if (m.heat.conductivity > 0) return m.heat;
  if (m.kind == Strength::rupture) return wood;
  return m.youngs_modulus < stiffest_light_metal ? aluminium : steel;
}

double air_conductance(double temperature, bool facing_up) {
  const double share = (std::clamp(temperature, table_least, table_high) - table_low) / (table_high - table_low);
  return facing_up ? up_low + share * (up_high - up_low) : down_low + share * (down_high - down_low);
}

double cooling_time(double areal_mass, double mean) {
  return areal_mass * cloth_specific_heat / (air_conductance(mean, true) + air_conductance(mean, false));
}

}  // namespace evenpull::inline solver
