// What comes out: plain values that app/ writes as JSON and viz/ draws. SI units inside; words are made in viz/words.
#pragma once

#include "sequencer/plan/accuracy.hpp"
#include "sequencer/plan/advice.hpp"
#include "sequencer/plan/bench_check.hpp"
#include "sequencer/plan/certificate.hpp"
#include "sequencer/plan/chances.hpp"
#include "sequencer/plan/job_time.hpp"
#include "sequencer/plan/limit.hpp"
#include "sequencer/plan/note.hpp"
#include "sequencer/plan/order_id.hpp"
#include "sequencer/plan/order_result.hpp"
#include "sequencer/plan/pass_trial.hpp"
#include "sequencer/plan/safety.hpp"
#include "sequencer/plan/search_report.hpp"
#include "sequencer/plan/snapshot.hpp"
#include "sequencer/plan/stage_heat.hpp"
#include "sequencer/plan/stage_summary.hpp"
#include "sequencer/plan/step.hpp"
#include "sequencer/plan/window.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

struct Plan {
  Case the_case;
  Panel panel;  ///< of the full model
  Accuracy accuracy = Accuracy::normal;
  std::vector<StudyLevel> study;  ///< whole zones from coarse to fine, then cut ones; empty: no error bars
  bool replayed = false;          ///< an order somebody chose (command `replay`)
  std::optional<int> ceiling;  ///< index of the hottest safe stage; of a first look, which has none, that of `nominal`
  std::optional<int> nominal;  ///< hottest stage that holds with the values as stated, error bar added
  std::vector<StageSafety> safety;  ///< of each stage judged, what it lacks
  std::optional<double> setting;    ///< K: hottest setting that would still pass, when it lies between stages
  Advice advice;
  OrderId order;                     ///< the chosen one
  std::vector<Step> steps;           ///< every step computed, all stages; print those up to the ceiling only
  std::vector<LimitReading> limits;  ///< governing one for each (limit, stage)
  std::vector<OrderResult> orders;
  std::vector<StageSummary> stages;
  std::vector<BoundRun> bounds;
  std::vector<Snapshot> snapshots;      ///< [0] before ironing, then one after each step
  std::vector<int> stage_end_snapshot;  ///< index into snapshots for each stage
  Solve solve;
  std::vector<Certificate> certificates;  ///< of the chosen order
  std::vector<StageSearch> searched;      ///< how good the order is; empty: nothing was searched
  std::vector<TradeOff> trade_offs;       ///< turn-overs against load, most turn-overs first
  std::vector<PassTrial> pass_trials;     ///< ways to pass over the first stage; empty: the case states its passes
  std::vector<StageHeat> heat;            ///< by stage: what the iron has to do
  std::vector<StageTime> times;           ///< of what is to be done up to the ceiling
  Chances chances;                        ///< how sure all this is
  std::vector<std::vector<BenchCheck>> bench_checks;  ///< by stage: what to weigh and tap at its end
  ReadingsTold read;                                  ///< what was read so far and what it says
  std::vector<StageWindow> windows;                   ///< by stage: between which readings the work may go on
  std::vector<Note> notes;                            ///< for the sheet: bounds, frame turn, pulling ties, odd rankings

  bool quick() const { return accuracy == Accuracy::quick; }
  /// Without chances nothing is called safe.
  bool first_look() const { return chances.scenarios == 0; }
};

/// The stage beyond the hottest safe one that readings may open.
std::optional<int> opened_by_reading(const Plan& plan);
/// What lets the work go on after a stage, where there is such a window.
const StageWindow* window_after(const Plan& plan, int stage);

/// Readings up to the ceiling (or of the first stage without one), the worst of each limit but waves, worst first.
std::vector<LimitReading> worst_readings(const Plan& plan);

}  // namespace evenpull::inline sequencer
