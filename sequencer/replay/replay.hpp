// Runs a list of steps through a model, judges every step that is not done, and keeps what the plan and the drawings need.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "sequencer/replay/judge.hpp"
#include "sequencer/replay/tally.hpp"
#include "solver/ironing/ironing.hpp"
#include "solver/statement/errors.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

struct ReplayOptions {
  bool snapshots = false;  ///< keep a Snapshot of every step
  bool states = false;     ///< keep the covering at each stage end
  bool certified = false;  ///< every solve to `certified_tension`, else the usual smoothing on the way
  bool released = true;    ///< take the fixture off and judge again after each stage
  /// So many zones that follow each other in a run are ironed at one time: the way is looked at after them alone.
  int at_once = 1;
  bool unsolved_ends_it = false;  ///< where no equilibrium is found: keep the stages before instead of throwing
  /// How step `index` really went; unset: as the iron of the case does it.
  std::function<PassHeat(const Step& step, std::size_t index)> heat;
  std::function<void(int steps_done, int steps)> progress;
};

/// A bay of one side among those of both.
inline int gauge_of_bay(int bays, Side side, int bay) { return static_cast<int>(side) * bays + bay; }

/// What a stage did.
struct StageVerdict {
  int stage = 0;
  std::vector<LimitReading> limits;  ///< empty where all steps of the stage are done: what is past is not judged
  StageSummary summary;
  bool buckled = false;                                          ///< the frame gave way; nothing after it was computed
  double worst_difference_chord = 0, worst_difference_span = 0;  ///< N/m
  double worst_slip = 0, worst_twist = 0, spread_along_span = 0;
  double end_use = 0;     ///< use of the history's limits when the stage is done, settled and released: no order helps
  double lift = 0;        ///< N, cloth lifting off a bearing at the stage end
  double frame_turn = 0;  ///< rad
  std::vector<double> zone_pull{};    ///< at the stage end, mean of chordwise and spanwise, by Panel::zones [N/m]
  std::vector<double> bay_pull{};     ///< at the stage end, root of chordwise x spanwise, by gauge_of_bay [N/m]
  std::vector<double> column_slip{};  ///< at the stage end, amount by column of the trailing edge [m]
};

struct ReplayResult {
  std::vector<Step> planned;   ///< all that were to be worked
  std::vector<Step> steps;     ///< those computed: fewer where the frame gave way
  std::vector<Tally> moments;  ///< use, pull difference, slip and unevenness right after each of them
  std::vector<StageVerdict> stages;
  std::vector<Snapshot> snapshots;
  std::vector<int> stage_end_snapshot;
  std::vector<Covering> stage_end;
  std::vector<Certificate> certificates;
  Solve solve;
  std::optional<NotConverged> unsolved;  ///< no equilibrium was found in the stage that follows the last of `stages`
};

/// Steps sorted by stage (never falling). Throws CaseError and, unless it is wished otherwise, NotConverged.
ReplayResult replay(const Model& m, const std::vector<Step>& steps, const ReplayOptions& options);

/// Continues from a state with steps of one stage, at any true temperature [K]; judged as that stage.
StageVerdict replay_stage(Ironing& ironing, Covering s, const std::vector<Step>& steps, double temperature);

}  // namespace evenpull::inline sequencer
