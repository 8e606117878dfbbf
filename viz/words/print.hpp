// Quantities as messages print them, with the digits that a person may have stated.
#pragma once

#include <string>

namespace evenpull {

/// Degrees Fahrenheit of a temperature in K, rounded to 1e-6 so that 250 F prints as 250.
double to_degF(double kelvin);
double to_degC(double kelvin);

/// "13.78 in (350 mm)".
std::string print_length(double metres);
/// "2.00 lb/in (350 N/m)".
std::string print_pull(double newton_per_metre);
/// Shortest plain form with at most `digits` significant digits: 0.25, 1800, 1.5e-05.
std::string print_number(double value, int digits = 4);

}  // namespace evenpull
