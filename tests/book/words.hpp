// How numbers and names are written in the book. Few digits: the last ones differ from machine to machine.
#pragma once

#include <string>

namespace evenpull::book {

std::string number(double value);                ///< five digits
std::string decimals(double value, int digits);  ///< a fixed number of decimals
/// A share as a percentage of two digits and one to four decimals; below one in a million "< 0.0001 %".
std::string percent(double share);
/// A bar: two digits, no trailing zeros.
std::string bar(double share);
/// Text that Markdown shows as it stands, also within a table.
std::string plain(const std::string& text);
/// The same for SVG.
std::string escaped(const std::string& text);
/// Lower-case letters, digits and hyphens: a file name.
std::string file_name(const std::string& text);

/// Errors below this share are not told apart.
inline constexpr double nothing = 1e-6;

}  // namespace evenpull::book
