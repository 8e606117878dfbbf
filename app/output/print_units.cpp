#include "app/text/units.hpp"

#include <fmt/format.h>

#include <cmath>

namespace evenpull {
namespace {

struct BenchUnit {
  const char* word;
  double per_si;
};

BenchUnit bench_unit(Quantity kind) {
  switch (kind) {
    case Quantity::length: return {" mm", 1e3};
    case Quantity::area: return {" mm^2", 1e6};
    case Quantity::length4: return {" mm^4", 1e12};
    case Quantity::area_mass: return {" g/m^2", 1e3};
    case Quantity::force: return {" N", 1};
    case Quantity::force_per_width: return {" N/m", 1};
    case Quantity::stress: return {" MPa", 1e-6};
    case Quantity::temperature: return {" degF", 1};
    case Quantity::temperature_difference: return {" K", 1};
    case Quantity::angle: return {" deg", 180 / M_PI};
    case Quantity::speed: return {" mm/s", 1e3};
    case Quantity::time: return {" s", 1};
    case Quantity::power: return {" W", 1};
    case Quantity::mass: return {" kg", 1};
    case Quantity::conductance: return {" W/m^2/K", 1};
    case Quantity::molar_energy: return {" kJ/mol", 1e-3};
    case Quantity::fraction: break;
  }
  return {"", 1};
}

}  // namespace

std::string print_bounds(Quantity kind, double low, double high) {
  const auto unit = bench_unit(kind);
  const auto number = [&](double v) {
    return kind == Quantity::temperature ? fmt::format("{:.0f}", to_degF(v)) : print_number(v * unit.per_si, 6);
  };
  return number(low) + " to " + number(high) + unit.word;
}
namespace {
constexpr double metres_per_inch = 0.0254;             // exact
constexpr double newtons_per_pound = 4.4482216152605;  // exact
}  // namespace

double to_degF(double kelvin) {
  return std::round((kelvin * 1.8 - 459.67) * 1e6) / 1e6;
}
double to_degC(double kelvin) {
  return std::round((kelvin - 273.15) * 1e6) / 1e6;
}

std::string print_number(double value, int digits) {
  return fmt::format("{:.{}g}", value == 0 ? 0.0 : value, digits);
}

std::string print_temperature(double kelvin) {
  return fmt::format("{:.0f} °F ({:.0f} °C)", to_degF(kelvin), to_degC(kelvin));
}

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
