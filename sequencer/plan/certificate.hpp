// What vouches for the numbers of a plan: its equilibria, its meshes, its bounds.
#pragma once

#include "sequencer/plan/limit.hpp"
#include "sequencer/plan/run_id.hpp"
#include "solver/equilibrium/solve_report.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// One equilibrium (docs/model.md, section 9). One for each step, each settled and each released state.
struct Certificate {
  int stage = 0;
  Moment when = Moment::on_the_way;
  int step = 0;  ///< on the way: after which step of the order, from 1
  SolveReport solve;
};

/// All equilibria of an order.
struct Solve {
  int nodes = 0;  ///< cloth nodes of the full model
  int steps = 0;
  int iterations = 0;
  double worst_residual = 0;                  ///< N
  double tension_error_bound = 0;             ///< N/m rms, at the stage ends that are judged
  double tension_error_bound_on_the_way = 0;  ///< N/m rms, of the steps between
  double worst_threshold_error = 0;           ///< friction threshold, share by which it is off from consistent
  std::optional<double> mesh_change;          ///< share of governing use: the finest mesh against the last but one
  std::optional<double> zone_change;          ///< share of governing use: the smallest zones against whole ones
};

/// A run behind the error bars: its mesh and zones.
struct StudyLevel {
  int nodes = 0;
  double edge = 0;     ///< m, mean
  int zone_parts = 1;  ///< into how many each zone was cut
};

/// A bound run at the end of the chosen plan: inner ribs free or glued, or the joints of the frame at an end of their range.
struct BoundRun {
  RibTie inner_ribs = RibTie::free;
  std::vector<std::optional<double>> worst_use;  ///< per stage from `first_stage`; none: the frame gave way
  std::optional<double> unevenness_final;
  double worst_slip = 0;
  int first_stage = 0;               ///< the first that was judged; those before it were done when the plan was made
  std::optional<JointEnd> joints{};  ///< set: the joints are bounded, and the inner ribs are as stated
};

}  // namespace evenpull::inline sequencer
