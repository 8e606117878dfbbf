#include "viz/words/wording.hpp"

#include "viz/words/trouble.hpp"

#include <fmt/core.h>

#include <cmath>

namespace evenpull::viz {

namespace {

// Exact by definition: the international yard and pound (1959) and standard gravity.
constexpr double metres_per_inch = 0.0254;
constexpr double newtons_per_pound = 4.4482216152605;
constexpr double degrees_per_radian = 57.295779513082320877;

// How a dose is said. A light pass of the usual plan is 0.25, a full one 1 (docs/model.md, section 3); anything between
// is said as a part, with its number, since a word alone would hide it.
constexpr double most_of_a_light_dose = 0.4;
constexpr double least_of_a_full_dose = 0.9;

// A reading of minus nothing would print as "-0.0".
double no_minus_zero(double v, int decimals) {
  const double step = std::pow(10.0, -decimals);
  return std::abs(v) < step / 2 ? 0.0 : v;
}

// A frame without compression has no buckling factor; "inf" would say nothing to a reader. What is no number at all is a
// mistake of ours: called "none" it would pass for good news.
bool is_none(double v) {
  if (std::isnan(v)) throw CannotDraw("a value that is to be said is not a number");
  return std::isinf(v);
}

std::string fixed(double v, int decimals) { return number_text(v, decimals); }

// A value and its limit may be told apart only by more decimals when they are small.
int decimals_of_small_length(double metres) { return std::abs(metres) < 0.0254 ? 2 : 1; }

}  // namespace

double fahrenheit(double kelvin) { return (kelvin - 273.15) * 9 / 5 + 32; }
double celsius(double kelvin) { return kelvin - 273.15; }
double inches(double metres) { return metres / metres_per_inch; }
double ounces_per_square_yard(double kilograms_per_square_metre) {
  constexpr double kilograms_per_ounce = 0.45359237 / 16, metres_per_yard = 36 * metres_per_inch;  // exact
  return kilograms_per_square_metre * metres_per_yard * metres_per_yard / kilograms_per_ounce;
}
double ksi(double pascals) { return pascals / (1000 * newtons_per_pound / (metres_per_inch * metres_per_inch)); }
double pounds_per_inch(double newtons_per_metre) { return newtons_per_metre * metres_per_inch / newtons_per_pound; }

std::string number_text(double v, int decimals) {
  if (is_none(v)) return "none";
  return fmt::format("{:.{}f}", no_minus_zero(v, decimals), decimals);
}

std::string degrees_f(double kelvin) { return fixed(fahrenheit(kelvin), 0) + " °F"; }
std::string degrees_c(double kelvin) { return fixed(celsius(kelvin), 0) + " °C"; }
std::string degrees_both(double kelvin) { return degrees_f(kelvin) + " (" + degrees_c(kelvin) + ")"; }

std::string stage_both(const Case& c, int stage) {
  return degrees_both(c.stages.at(static_cast<std::size_t>(stage)).temperature);
}

std::string swing_both(double kelvin) { return "± " + fixed(kelvin * 1.8, 0) + " °F (± " + fixed(kelvin, 0) + " °C)"; }

std::string speed_both(double metres_per_second) {
  const double in = inches(metres_per_second);
  return fixed(in, in < 10 ? 1 : 0) + " in/s (" + fixed(metres_per_second * 1000, 0) + " mm/s)";
}

std::string times_text(int n) { return n == 1 ? "once" : n == 2 ? "twice" : std::to_string(n) + " times"; }

std::string length_both(double metres) { return fixed(inches(metres), 1) + " in (" + fixed(metres * 1000, 0) + " mm)"; }

std::string small_length_both(double metres) {
  return fixed(inches(metres), decimals_of_small_length(metres)) + " in (" + fixed(metres * 1000, 1) + " mm)";
}

std::string weight_both(double kilograms) {
  constexpr double kilograms_per_pound = 0.45359237;  // exact
  return fixed(kilograms / kilograms_per_pound, 1) + " lb (" + fixed(kilograms * 1000, 0) + " g)";
}

std::string pull_both(double newtons_per_metre) {
  return fixed(pounds_per_inch(newtons_per_metre), 1) + " lb/in (" + fixed(newtons_per_metre, 0) + " N/m)";
}

double degrees_of_arc(double radians) { return radians * degrees_per_radian; }
std::string force_both(double newtons) {
  const double pounds = newtons / newtons_per_pound;
  return fmt::format("{} lbf ({} N)", number_text(pounds, pounds < 10 ? 1 : 0), number_text(newtons, 0));
}

std::string angle_text(double radians) { return fixed(degrees_of_arc(radians), 2) + "°"; }
std::string percent_text(double share) { return fixed(share * 100, 0) + " %"; }

std::string dose_words(double dose) {
  if (dose >= least_of_a_full_dose) return "full";
  if (dose <= most_of_a_light_dose) return "light";
  return "part (" + fixed(dose, 2) + " of a full pass)";
}

std::string dose_word(double dose) {
  if (dose >= least_of_a_full_dose) return "full";
  return dose <= most_of_a_light_dose ? "light" : "part " + fixed(dose, 2);
}

std::string stage_in_name(const Case& c, int stage) {
  const auto plain = [&](int s) {
    return fmt::format("{:.0f}F", fahrenheit(c.stages.at(static_cast<std::size_t>(s)).temperature));
  };
  int same = 1;
  for (int s = 0; s < stage; ++s) same += plain(s) == plain(stage);
  return plain(stage) + (same > 1 ? "_" + std::to_string(same) : "");
}

std::string side_word(Side side) { return side == Side::top ? "TOP" : "BOTTOM"; }

}  // namespace evenpull::viz
