// The words for units that a workshop writes, and how they may be put together: "oz/yd^2", "W/(m^2 K)", "lb per in".
// UDUNITS would take much more that nobody means here ("mm @ -5", "lg(re 1 mW)", "kin", "Hz" for a time), so nothing goes
// to it but what stands in this list.
#pragma once

#include "app/text/units.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace evenpull {

struct SpelledUnit {
  std::string text;     ///< as UDUNITS spells it
  bool angle = false;   ///< UDUNITS counts an angle as a plain number
  bool single = false;  ///< one word and no power
};

/// The unit in UDUNITS' spelling, as it is meant in a quantity of this kind; nothing if it is none that is known.
std::optional<SpelledUnit> spell_unit(std::string_view written, Quantity kind);

/// The known word nearest to what was written ("MM": "mm"), or "".
std::string nearest_unit(std::string_view written);

}  // namespace evenpull
