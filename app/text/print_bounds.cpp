#include "app/text/units.hpp"
#include "viz/words/print.hpp"

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
    case Quantity::volume: return {" mL", 1e6};
    case Quantity::coverage: return {" m^2/L", 1e-3};
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

}  // namespace evenpull
