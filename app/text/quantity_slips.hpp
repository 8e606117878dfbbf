// What people write for a quantity that cannot be read but is easily understood: each gets the sentence that helps.
#pragma once

#include "app/text/units.hpp"

#include <string>
#include <string_view>

namespace evenpull {

/// A clause like `has a comma in its number; write "0.035 in"`, or "" where nothing of the kind is found. To be asked before
/// the text is read: commas, typographic marks, spaces that are none, fractions of one letter.
std::string slip_of_letters(std::string_view text);

/// The same of a text that holds more than one quantity: feet and inches.
std::string slip_of_feet_and_inches(std::string_view text);

/// A unit of the wrong kind where what is missing is plain: an ounce where ounces on an area are wanted. `written` is the
/// unit, `number` how its number was written.
std::string slip_of_kind(std::string_view number, std::string_view written, Quantity kind);

}  // namespace evenpull
