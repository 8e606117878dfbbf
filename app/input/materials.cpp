#include "app/input/materials.hpp"

#include "app/input/case_table.hpp"

#include <algorithm>

namespace evenpull {
namespace {

/// Material::weld_reach of all: US structural practice, 1 in all ways from the weld (from memory); for thin steel tube an
/// estimate.
constexpr double one_inch = 0.025;
/// 0.035 in as it is sold in millimetres.
constexpr double thin_tube_wall = 0.9e-3;

std::string plain_name(const std::string& name) {
  std::string out = plain_word(name);
  out.erase(std::remove(out.begin(), out.end(), ','), out.end());
  return out;
}

}  // namespace

// Stiffness is typical, strength is a minimum: the stress a member bears must not rest on a good batch.
const std::vector<KnownMaterial>& known_materials() {
  static const std::vector<KnownMaterial> table = {
      {{"2024-T3 sheet", 72.4e9, 27.6e9, 290e6, Strength::yield, 269e6},
       "yield 42 ksi across the grain, compression 39 ksi along it: A-basis, the lower of the two directions each "
       "(MIL-HDBK-5, from memory)"},
      {{"6061-T6 tube", 68.9e9, 25.9e9, 241e6, Strength::yield, 234e6, 105e6, one_inch},
       "yield 35 ksi, compression 34 ksi: minimum for drawn tube (MIL-HDBK-5, from memory); 15 ksi within an inch of a "
       "weld (structural practice, from memory; EN 1999-1-1 table 3.2b has 115 MPa)"},
      {{"4130 tube", 200e9, 77e9, 345e6, Strength::yield, 0, 392e6, one_inch},
       "condition not stated: yield 50 ksi, the lowest minimum among tube products (from memory); not more beside a "
       "weld"},
      {{"4130 tube, normalised", 200e9, 77e9, 517e6, Strength::yield, 0, 392e6, one_inch},
       "yield 75 ksi (MIL-HDBK-5 table 2.3.1.0, from memory), wall up to 0.035 in; 57 ksi beside a weld, as a reprint "
       "of MIL-HDBK-5H table 8.2.2.1.1 has it",
       "4130 tube, normalised",
       thin_tube_wall},
      {{"4130 tube, normalised, wall over 0.035 in", 200e9, 77e9, 483e6, Strength::yield, 0, 392e6, one_inch},
       "yield 70 ksi: the lower of two editions for walls over 0.035 in, and where no wall is stated (from memory); "
       "57 ksi beside a weld, as a reprint of MIL-HDBK-5H table 8.2.2.1.1 has it",
       "4130 tube, normalised"},
      {{"4130 tube, annealed", 200e9, 77e9, 345e6, Strength::yield, 0, 345e6, one_inch},
       "yield 50 ksi (50 to 60, from memory), beside a weld too"},
      {{"Sitka spruce", 10.8e9, 0.69e9, 70.3e6, Strength::rupture, 0, 0, one_inch, wood_lasting},
       "clear wood at 12 % moisture, modulus of rupture 10 200 psi (from memory); G = 0.064 E is an estimate, and so "
       "is that lasting pull doubles its movement"},
      {{"birch plywood", 9e9, 1.0e9, 45e6, Strength::rupture, 0, 0, one_inch, wood_lasting},
       "along the face grain; estimate"},
      {{"birch plywood 0-90", 9e9, 0.75e9, 45e6, Strength::rupture, 0, 0, one_inch, wood_lasting},
       "a web with the grain along and across it: G 0.6 to 0.9 GPa; estimate"},
  };
  return table;
}

std::vector<std::string> known_material_names() {
  std::vector<std::string> names;
  for (const auto& known : known_materials())
    if (std::find(names.begin(), names.end(), known.name()) == names.end()) names.emplace_back(known.name());
  return names;
}

bool same_material(const std::string& a, const std::string& b) { return plain_name(a) == plain_name(b); }

const KnownMaterial* find_material(const std::string& name, double wall) {
  for (const auto& known : known_materials())
    if (known.called && same_material(known.values.name, name) && !same_material(known.called, name)) return &known;
  for (const auto& known : known_materials())
    if (same_material(known.name(), name) && (known.up_to_wall == 0 || (wall > 0 && wall <= known.up_to_wall)))
      return &known;
  return nullptr;
}

}  // namespace evenpull
