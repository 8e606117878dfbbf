// Numbers as a reader sees them: the trade's unit first, the metric one beside it. SI comes in, text goes out.
#pragma once

#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <string>

namespace evenpull::viz {

/// Of a difference.
inline constexpr double kelvin_to_degF = 1.8;
double fahrenheit(double kelvin);
double celsius(double kelvin);
double inches(double metres);
double pounds_per_inch(double newtons_per_metre);
double ounces_per_square_yard(double kilograms_per_square_metre);
double ksi(double pascals);  ///< thousands of pounds per square inch
double degrees_of_arc(double radians);

std::string number_text(double v, int decimals);  ///< "3.40", never "-0.00"; "none" where there is no end to it
std::string degrees_f(double kelvin);             ///< "300 °F"
std::string degrees_c(double kelvin);             ///< "149 °C"
std::string degrees_both(double kelvin);          ///< "300 °F (149 °C)"
/// The temperature of a stage in both scales.
std::string stage_both(const Case& c, int stage);
std::string swing_both(double kelvin);             ///< "± 25 °F (± 14 °C)": a difference, not a temperature
std::string speed_both(double metres_per_second);  ///< "2.3 in/s (58 mm/s)"
std::string times_text(int n);                     ///< "once", "twice", "3 times"
std::string length_both(double metres);            ///< "59.1 in (1500 mm)"
std::string small_length_both(double metres);      ///< "0.12 in (3.0 mm)"
std::string weight_both(double kilograms);         ///< "1.1 lb (500 g)"
std::string pull_both(double newtons_per_metre);   ///< "3.4 lb/in (600 N/m)"
std::string force_both(double newtons);            ///< "20 lbf (89 N)"
std::string angle_text(double radians);            ///< "0.31°"
std::string percent_text(double share);            ///< "12 %"
std::string dose_words(double dose);               ///< "light", "part (0.60 of a full pass)", "full"
std::string dose_word(double dose);                ///< "light", "part", "full"
/// A stage in the name of a file: "300F", or "300F_2" where an earlier stage has that name.
std::string stage_in_name(const Case& c, int stage);
std::string side_word(Side side);  ///< "TOP", "BOTTOM"

}  // namespace evenpull::viz
