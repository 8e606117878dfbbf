#include "viz/words/wording.hpp"

#include "sequencer/sure/error_bars.hpp"
#include "viz/words/trouble.hpp"

#include <fmt/core.h>

#include <cmath>

namespace evenpull::viz {

namespace {

// Exact by definition: the international yard and pound (1959) and standard gravity.
constexpr double metres_per_inch = 0.0254;
constexpr double newtons_per_pound = 4.4482216152605;
constexpr double pascals_per_ksi = 1000 * newtons_per_pound / (metres_per_inch * metres_per_inch);
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

std::string fixed(double v, int decimals) {
  return number_text(v, decimals);
}

// A bow as a share of the spacing between joints, as a workshop says it.
std::string bow_text(double share) {
  constexpr double too_small_to_tell = 1e-4;
  if (share < too_small_to_tell) return "none";
  return fmt::format("1/{:.0f} of spacing", 1 / share);
}

// A value and its limit may be told apart only by more decimals when they are small.
int decimals_of_small_length(double metres) {
  return std::abs(metres) < 0.0254 ? 2 : 1;
}

}  // namespace

double fahrenheit(double kelvin) {
  return (kelvin - 273.15) * 9 / 5 + 32;
}
double celsius(double kelvin) {
  return kelvin - 273.15;
}
double inches(double metres) {
  return metres / metres_per_inch;
}
double pounds_per_inch(double newtons_per_metre) {
  return newtons_per_metre * metres_per_inch / newtons_per_pound;
}

std::string number_text(double v, int decimals) {
  if (is_none(v)) return "none";
  return fmt::format("{:.{}f}", no_minus_zero(v, decimals), decimals);
}

std::string degrees_f(double kelvin) {
  return fixed(fahrenheit(kelvin), 0) + " °F";
}
std::string degrees_c(double kelvin) {
  return fixed(celsius(kelvin), 0) + " °C";
}
std::string degrees_both(double kelvin) {
  return degrees_f(kelvin) + " (" + degrees_c(kelvin) + ")";
}

std::string swing_both(double kelvin) {
  return "± " + fixed(kelvin * 1.8, 0) + " °F (± " + fixed(kelvin, 0) + " °C)";
}

std::string speed_both(double metres_per_second) {
  const double in = inches(metres_per_second);
  return fixed(in, in < 10 ? 1 : 0) + " in/s (" + fixed(metres_per_second * 1000, 0) + " mm/s)";
}

std::string times_text(int n) {
  return n == 1 ? "once" : n == 2 ? "twice" : std::to_string(n) + " times";
}

std::string length_both(double metres) {
  return fixed(inches(metres), 1) + " in (" + fixed(metres * 1000, 0) + " mm)";
}

std::string small_length_both(double metres) {
  return fixed(inches(metres), decimals_of_small_length(metres)) + " in (" + fixed(metres * 1000, 1) + " mm)";
}

std::string pull_both(double newtons_per_metre) {
  return fixed(pounds_per_inch(newtons_per_metre), 1) + " lb/in (" + fixed(newtons_per_metre, 0) + " N/m)";
}

std::string angle_text(double radians) {
  return fixed(radians * degrees_per_radian, 2) + "°";
}
std::string percent_text(double share) {
  return fixed(share * 100, 0) + " %";
}

std::string use_text(double use, double plus_minus) {
  return plus_minus > 0 ? fixed(use, 2) + " ± " + fixed(printed_bar(use, plus_minus), 2) : fixed(use, 2);
}

std::string use_text(const LimitReading& reading) {
  if (reading.gave_way) return "over";
  if (reading.study.gave_way) return fixed(reading.use, 2) + ", error not known";
  return use_text(reading.use, reading.use_plus_minus);
}

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
  const auto plain = [&](int s) { return fmt::format("{:.0f}F", fahrenheit(c.stages.at(static_cast<std::size_t>(s)).temperature)); };
  int same = 1;
  for (int s = 0; s < stage; ++s) same += plain(s) == plain(stage);
  return plain(stage) + (same > 1 ? "_" + std::to_string(same) : "");
}

std::string side_word(Side side) {
  return side == Side::top ? "TOP" : "BOTTOM";
}

std::string limit_value(const LimitReading& reading) {
  return reading.gave_way ? "gave way" : limit_value(reading, reading.value);
}

std::string limit_value(const LimitReading& reading, double value) {
  if (is_none(value)) return "none";
  switch (reading.limit) {
    case Limit::stress: return fixed(value / pascals_per_ksi, 1) + " ksi (" + fixed(value / 1e6, 0) + " MPa)";
    case Limit::slip: return small_length_both(value);
    case Limit::twist: return angle_text(value);
    case Limit::pull_difference: return pull_both(value);
    case Limit::edge_bow:
    case Limit::end_rib_bow: return bow_text(value);
    case Limit::unevenness: return percent_text(value);
    case Limit::buckling: return fixed(value, 1);
  }
  return fixed(value, 3);
}

std::string limit_allowed(const LimitReading& reading) {
  if (!(reading.allowed > 0)) return "none set";
  return (reading.limit == Limit::buckling ? "at least " : "") + limit_value(reading, reading.allowed);
}

}  // namespace evenpull::viz
