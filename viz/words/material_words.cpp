#include "viz/words/material_words.hpp"

#include "viz/words/print.hpp"

#include <fmt/core.h>

namespace evenpull::viz {

std::string material_values(const Material& m) {
  std::string text = fmt::format(
      "E {} GPa, G {} GPa, {} {} MPa", print_number(m.youngs_modulus / 1e9), print_number(m.shear_modulus / 1e9),
      m.kind == Strength::yield ? "yield" : "modulus of rupture", print_number(m.strength / 1e6));
  if (m.compression_strength > 0)
    text += fmt::format(", in compression {} MPa", print_number(m.compression_strength / 1e6));
  if (m.welded_strength > 0 && m.welded_strength < m.strength)
    text +=
        fmt::format(", within {} of a weld {} MPa", print_length(m.weld_reach), print_number(m.welded_strength / 1e6));
  if (m.lasting_movement != 1)
    text += fmt::format(", in time {} times the movement at once", print_number(m.lasting_movement));
  return text;
}

}  // namespace evenpull::viz
