// A plausible plan for tests of what draws and writes plans. Everything in it is invented; nothing was computed.
#pragma once

#include "sequencer/plan/plan.hpp"

namespace evenpull {

struct SampleWish {
  bool tip_bow = false;
  bool no_ceiling = false;
  bool two_sheets = false;
  int bays = 6;
  int strips = 3;
  int rows_per_strip = 4;    ///< quads along the chord in each strip
  int columns_per_bay = 4;   ///< quads along the span in each bay
  double span = 1.8;         ///< m
  double root_chord = 0.42;  ///< m
  double tip_chord = 0.30;   ///< m
  int zones_per_run = 3;     ///< zones between turn-overs
  bool windows = false;      ///< readings decide on going on; opens the stage beyond the safe one
};

Case sample_case(const SampleWish& wish = {});
/// A flat-ish mesh with the indices that Panel promises; not the solver's own.
Panel sample_panel(const Case& c, const SampleWish& wish = {});
Plan sample_plan(const SampleWish& wish = {});

}  // namespace evenpull
