#include "app/input/materials.hpp"

namespace evenpull {

// Stiffness is typical, strength is a minimum: the stress a member bears must not rest on a good batch.
const std::vector<KnownMaterial>& known_materials() {
  static const std::vector<KnownMaterial> table = {
      {{"2024-T3 sheet", 72.4e9, 27.6e9, 290e6, Strength::yield, 269e6},
       "yield 42 ksi: A-basis across the grain, the lower of the two directions; in compression along the grain 39 "
       "ksi, "
       "which thin flats are held against (published design values, from memory)"},
      {{"6061-T6 tube", 68.9e9, 25.9e9, 241e6, Strength::yield}, "yield 35 ksi: minimum for drawn tube"},
      {{"4130 tube", 200e9, 77e9, 345e6, Strength::yield},
       "yield 50 ksi: the lowest minimum among normalised tube products (from memory)"},
      {{"Sitka spruce", 10.8e9, 0.69e9, 70.3e6, Strength::rupture},
       "clear wood at 12 % moisture, modulus of rupture 10 200 psi (from memory); G = 0.064 E is an estimate"},
      {{"birch plywood", 9e9, 1.0e9, 45e6, Strength::rupture}, "along the face grain; estimate"},
  };
  return table;
}

}  // namespace evenpull
