// Quantities as a workshop writes them ("0.016 in", "2.7 oz/yd^2", "250 degF", "2 lb/in") to SI and back.
//
// The conversion itself is UDUNITS-2. On top lies a thin layer, because the trade's shorthand means different things in
// different places: "lb/in" is a force per width where a pull is asked for, "oz" is an ounce of weight (UDUNITS takes
// it for a fluid ounce), "F" is Fahrenheit (UDUNITS: farad), and a swing of "15 degF" is a difference, not a
// temperature. So every quantity is read for a stated kind.
#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

namespace evenpull {

enum class Quantity {
  length,                  ///< m
  area,                    ///< m^2
  length4,                 ///< second moment of area, m^4
  area_mass,               ///< kg/m^2
  force,                   ///< N
  force_per_width,         ///< N/m
  stress,                  ///< Pa
  temperature,             ///< K
  temperature_difference,  ///< K
  angle,                   ///< rad
  speed,                   ///< m/s
  time,                    ///< s
  power,                   ///< W
  mass,                    ///< kg
  conductance,             ///< W/(m^2 K)
  molar_energy,            ///< J/mol
  volume,                  ///< m^3
  coverage,                ///< area over volume, 1/m
  fraction                 ///< 1; "1 %" or a plain number
};

/// What a quantity of this kind is called and how one is written, for messages: `a length`, `"0.016 in" or "0.4 mm"`.
struct QuantityWords {
  const char* name;
  const char* example;
};
QuantityWords words_of(Quantity kind);

/// A text is not a quantity of the kind asked for. what() is a clause: `is a mass per area, expected a length, ...`.
struct UnitError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// What may be stated, in a unit of the bench: "100 to 8000 mm". Bounds in SI.
std::string print_bounds(Quantity kind, double low, double high);

/// Rounded to 12 significant digits, so that a case written in inches and the same case in millimetres are one case.
double round_12(double value);

class Units {
 public:
  Units();
  ~Units();
  Units(const Units&) = delete;
  Units& operator=(const Units&) = delete;

  /// SI value, rounded to 12 digits. The number may be a workshop fraction: "3/8 in", "1 1/2 in".
  /// Throws UnitError.
  double parse(std::string_view text, Quantity kind) const;

 private:
  struct System;
  std::unique_ptr<System> system_;
};

}  // namespace evenpull
