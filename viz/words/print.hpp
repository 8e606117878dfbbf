// Quantities as messages print them, with the digits that a person may have stated.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

/// Degrees Fahrenheit of a temperature in K, rounded to 1e-6 so that 250 F prints as 250.
double to_degF(double kelvin);
double to_degC(double kelvin);

/// A length as a person would have written it, then in the other unit: "350 mm (13.78 in)", "5/8 in (15.9 mm)",
/// "0.035 in (0.89 mm)". `written`: as it was written in the case, if it was; else the unit in which it is a plain
/// number.
std::string print_length(double metres, const std::string& written = "");
/// "11 13/16 in", "0.035 in"; rounded to 0.01 in (below an inch 0.001 in) where it is no plain number of inches.
std::string print_inches(double metres);
/// "300 mm", "0.89 mm".
std::string print_millimetres(double metres);
/// A few lengths in one unit, inches where all are plain in them: "0, 10, 20 in".
std::string print_lengths(const std::vector<double>& metres);
/// "2.00 lb/in (350 N/m)".
std::string print_pull(double newton_per_metre);
/// Shortest plain form with at most `digits` significant digits: 0.25, 1800, 1.5e-05.
std::string print_number(double value, int digits = 4);

}  // namespace evenpull
