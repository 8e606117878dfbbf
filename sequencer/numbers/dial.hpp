// Settings that a dial and a thermometer can tell apart: whole steps of 5 degF, common practice, no source.
#pragma once

#include <cmath>

namespace evenpull::inline sequencer {

inline constexpr double dial_step = 5 / 1.8;  // K

namespace dial {

inline double degF(double kelvin) { return kelvin * 1.8 - 459.67; }
inline double kelvin(double degF) { return (degF + 459.67) / 1.8; }

/// The nearest setting [K].
inline double nearest(double temperature) { return kelvin(std::round(degF(temperature) / 5) * 5); }

/// The hottest setting not above this temperature [K].
inline double at_most(double temperature) {
  constexpr double rounding = 1e-9;  // of a step: a setting is at most itself
  return kelvin(std::floor(degF(temperature) / 5 + rounding) * 5);
}

}  // namespace dial
}  // namespace evenpull::inline sequencer
