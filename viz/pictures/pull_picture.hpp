// One picture of the pull after a stage.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "viz/kit/colours.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// What all pull pictures of a plan share, so that they can be laid side by side.
struct PullScale {
  Bands bands;                ///< N/m
  bool open_end = false;      ///< some cloth pulls harder than the last band says
  double longest_slip = 0;    ///< m
  double strongest_pull = 0;  ///< N/m: full length of a tick
};
PullScale common_scale(const Plan& plan);
/// The first stage that is not safe is shown too, to see why; hotter ones nobody irons, and they would spoil the scale.
int last_stage_shown(const Plan& plan);

/// Each as `stem`.png and `stem`.svg.
void write_largest_pull(const Plan& plan, int stage, const PullScale& scale, const std::string& stem);
void write_chord_and_span_pull(const Plan& plan, int stage, const PullScale& scale, const std::string& stem);

}  // namespace evenpull::viz
