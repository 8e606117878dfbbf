// Schedules of fastening the cloth to inner ribs, side by side: the same job by a plain rule under each, in a first look
// that says what changes and calls nothing safe.
#pragma once

#include "sequencer/numbers/parallel_for.hpp"
#include "sequencer/plan/limit.hpp"
#include "sequencer/plan/stage_summary.hpp"
#include "shop/hollow_ribs.hpp"
#include "solver/statement/case.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace evenpull {

/// A schedule to be tried.
struct AttachChoice {
  enum class Kind { stated, before_ironing, after_stage, never };
  Kind kind = Kind::stated;
  int stage = -1;       ///< after_stage: which
  bool stated = false;  ///< it is what the case states
  Case the_case;        ///< with it
};

/// What the case states, then all inner ribs at once: before ironing, after each stage but the last, never while it is
/// ironed (after all of it is the same). A rib is fastened as the case says, else laced at `usual_spacing`. What the case
/// states is no choice of its own where it is one of the others. Empty: there is no rib to fasten.
std::vector<AttachChoice> attach_choices(const Case& c);

/// A hollow rib after a stage.
struct HeldDown {
  Hollow hollow;
  double pull = 0;       ///< along the chord, mean of the bays beside it [N/m]
  double line_load = 0;  ///< that holds the cloth down [N/m]
};

struct AttachStage {
  int stage = 0;
  bool gave_way = false;               ///< nothing is known of its end then
  std::vector<LimitReading> limits{};  ///< the worst reading of each limit
  StageEnd end{};                      ///< off the rests
  double worst_slip = 0;               ///< m, on the way
  double pull_chord[2] = {0, 0};       ///< N/m, top and bottom
  double unevenness = 0;               ///< worst of both sides and directions
  double difference = 0;               ///< N/m: largest pull difference on the way, chordwise or spanwise
  std::vector<double> bay_pull{};      ///< of each bay of each side (gauge_of_bay) [N/m]
  std::vector<HeldDown> held_down{};
};

struct AttachRun {
  AttachChoice choice;
  std::vector<AttachStage> stages{};  ///< up to the one in which the frame gave way
  bool unsolved = false;              ///< no equilibrium was found beyond the last of `stages`
};

/// Worst limit of this kind of a stage; none: there is none, or the frame gave way.
std::optional<LimitReading> worst_of_kind(const AttachStage& s, LimitKind kind);

/// By how much the pull of a bay reads otherwise at most, as a share of what it is in `plain`: what a weight or a tap tells.
double reads_otherwise(const AttachStage& s, const AttachStage& plain);

/// Each choice worked by the easiest rule on the mesh of a first look. `done` is told after each. Throws CaseError.
std::vector<AttachRun> run_choices(const std::vector<AttachChoice>& choices, const ParallelFor& parallel,
                                   const std::function<void()>& done = {});

}  // namespace evenpull
