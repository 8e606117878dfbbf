#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <cmath>

namespace evenpull {

namespace {
constexpr double metres_per_inch = 0.0254;             // exact
constexpr double newtons_per_pound = 4.4482216152605;  // exact
}  // namespace

double to_degF(double kelvin) { return std::round((kelvin * 1.8 - 459.67) * 1e6) / 1e6; }
double to_degC(double kelvin) { return std::round((kelvin - 273.15) * 1e6) / 1e6; }

std::string print_number(double value, int digits) { return fmt::format("{:.{}g}", value == 0 ? 0.0 : value, digits); }

std::string print_length(double metres) {
  const double mm = metres * 1000, in = metres / metres_per_inch;
  if (std::abs(mm) < 10) return fmt::format("{:.3f} in ({:.2f} mm)", in, mm);
  return fmt::format("{:.2f} in ({:.0f} mm)", in, mm);
}

std::string print_pull(double newton_per_metre) {
  return fmt::format("{:.2f} lb/in ({:.0f} N/m)", newton_per_metre * metres_per_inch / newtons_per_pound,
                     newton_per_metre);
}

}  // namespace evenpull
