// A flat rectangular panel in one full wrap, whose areas and middles are known by hand, and an adhesive. Invented.
#pragma once

#include "shop/adhesive.hpp"
#include "tests/support/sample_case.hpp"

namespace evenpull::check::flat_wrap {

constexpr double span = 1.8, chord = 0.35, seam = 0.02, flange = 14e-3, lap = 0.05, tuck = 0.025;
constexpr double skin = (1 - seam) * chord;  // of cloth from the seam to the TE, on each side

inline Case flat() {
  Case c = sample::aileron(6, span, chord);
  c.profile = {{0, 0.05, 0.05}, {1, 0.05, 0.05}};
  return c;
}

inline Adhesive glue() {
  Adhesive a;
  a.coverage = 10e3, a.coverage_off = 0.25, a.lost = 0.2;
  a.pre_coats = a.lay_in_coats = a.brush_through_coats = 1;
  a.lap = lap, a.tuck_round = tuck, a.dry_mass = 0.02;
  return a;
}

}  // namespace evenpull::check::flat_wrap
