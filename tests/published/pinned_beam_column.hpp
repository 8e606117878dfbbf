// A pinned tube under an even load across it and a push P along it, in closed form: with u = (L/2) sqrt(P/EI)
//   w = 5qL^4/384EI 12 (2 sec u - u^2 - 2)/(5 u^4),   M = qL^2/8 2 (sec u - 1)/u^2
// Timoshenko & Gere, Theory of Elastic Stability, from memory; derived here from EI w'' + P w = M.
#pragma once

#include "tests/published/straight_line.hpp"

#include <cmath>
#include <string>

namespace evenpull::published {

constexpr double pi = 3.14159265358979323846;

/// What the tests of bows share: tube 12.7 x 0.9 mm, 0.4 m long, 500 N/m.
struct PinnedTube {
  double length = 0.4, q = 500;  // m, N/m
  Section section = tube_section(12.7e-3, 0.9e-3);

  double bending() const { return tube_modulus * section.inertia_up; }  // N m^2
  double euler_load() const { return pi * pi * bending() / (length * length); }
  /// u of a share of Euler's load.
  static double u(double share) { return 0.5 * pi * std::sqrt(share); }
  double deflection(double u) const {
    return q * std::pow(length, 4) / (384 * bending()) * 12 * (2 / std::cos(u) - u * u - 2) / std::pow(u, 4);
  }
  double moment(double u) const { return q * length * length / 8 * 2 * (1 / std::cos(u) - 1) / (u * u); }
};

inline const std::string beam_column_source =
    "Timoshenko & Gere, Theory of Elastic Stability, from memory; derived here";

/// "0.25", "0.5"
inline std::string share_text(double share) { return std::to_string(share).substr(0, share == 0.25 ? 4 : 3); }

}  // namespace evenpull::published
