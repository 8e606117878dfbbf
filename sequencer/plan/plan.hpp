// What comes out: plain values that app/ writes as JSON and viz/ draws. SI units inside.
#pragma once

#include "sequencer/numbers/number_study.hpp"
#include "sequencer/plan/accuracy_wish.hpp"
#include "sequencer/plan/chances.hpp"
#include "sequencer/plan/limit.hpp"
#include "sequencer/plan/pass_trial.hpp"
#include "sequencer/plan/search_report.hpp"
#include "sequencer/plan/stage_heat.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/readings/sag.hpp"
#include "solver/readings/unevenness.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

/// One zone-step of an order: this zone, in this pass of this stage, with this dose.
struct Step {
  int stage = 0;   ///< index into Case::stages
  int pass = 1;    ///< from 1 within the stage
  int run = 1;     ///< from 1 within the pass; a new run begins with each turn-over
  int place = 1;   ///< from 1 within the pass
  int zone = 0;    ///< index into Panel::zones
  double dose = 1;
  bool done = false;  ///< worked before the plan was made: computed, and not judged
};

/// Everything the drawings need about the cloth and the frame after one step.
struct Snapshot {
  int step = 0;                         ///< 0 = before ironing, else steps done
  std::string label;                    ///< "250 F, pass 1, T7"
  std::vector<float> displacement;      ///< nodes x 3 [m]
  std::vector<float> sag;               ///< per node, inward from the surface that the ribs carry [m] (solver/readings/sag.hpp)
  std::vector<float> pull_warp, pull_fill, pull_major, pull_minor;  ///< per quad [N/m]; warp, fill, principal
  std::vector<float> pull_chord, pull_span;                         ///< per quad [N/m]; along chord and span
  std::vector<float> major_angle;       ///< of the larger principal pull from the span towards the TE [rad], per quad
  std::vector<unsigned char> state;     ///< per quad: 0 loose, 1 puckered, 2 tight
  std::vector<float> shrink_warp, shrink_fill;  ///< per quad, accumulated heat shrink (strain)
  std::vector<float> edge_slip;         ///< per column [m], positive: cloth gone from the bottom to the top
  std::vector<float> joint_displacement;  ///< joints x 6 (3 translations [m], 3 rotations [rad])
  std::vector<float> beam_use;          ///< stress / allowable, per beam
};

/// One limit at one stage of the chosen order.
struct LimitReading {
  Limit limit = Limit::stress;
  std::string where;   ///< "end rib at 59.1 in, middle" - for a reader
  Moment when = Moment::on_the_way;
  int stage = 0;
  double value = 0, allowed = 0;
  std::string unit;    ///< "Pa", "m", "rad", "1"
  double use = 0;      ///< share of the limit taken up
  double use_plus_minus = 0;
  bool judgement = true;  ///< the allowed value is engineering judgement
  NumberStudy study{};    ///< of the use
  bool gave_way = false;  ///< the frame gave way: value and use stand for "too much" and are no numbers to print
};

/// Which mesh gave the numbers of an order: that of the plan, or the one that all orders are ranked on.
enum class OrderModel { coarse, full };

/// "coarse", "full".
const char* model_text(OrderModel m);

struct OrderResult {
  std::string name;         ///< "centre-out halving, sides alternating"
  std::string description;  ///< one plain sentence
  OrderModel model = OrderModel::coarse;
  int stages_passed = 0;    ///< how many stages hold every limit, error bars not counted (only the chosen order has them)
  double worst_use = 0;     ///< up to the chosen ceiling (or of the first stage if there is none)
  std::optional<double> unevenness_final;   ///< none: the frame gave way before
  double worst_pull_difference_chordwise = 0;  ///< N/m
  double worst_pull_difference_spanwise = 0;   ///< N/m
  double worst_slip = 0;    ///< m
  double worst_twist = 0;   ///< rad
  std::optional<double> pull_spread_along_span;  ///< N/m: worst difference of zone-column pull along the span on one side
  int turn_overs = 0;         ///< still to come, of the order as planned
  int turn_overs_a_pass = 0;  ///< most still to come in any pass
  bool gave_way = false;      ///< the frame gave way up to there: the other numbers are of what came before
  bool chosen = false;
  std::vector<double> uses{};  ///< worst use of each limit up to there, largest first
};

/// The shape into which the frame would bow without end if the pull were `factor` times what it is.
struct BucklingMode {
  double factor = 0;
  Moment when = Moment::stage_end;  ///< at stage end or released, whichever stands nearer to buckling
  std::string where;          ///< where it moves most, for a reader: "trailing edge at 35.4 in (900 mm) from the root"
  std::vector<float> joint;   ///< joints x 6: translations and turns; the largest translation of all is 1
  std::vector<float> node;    ///< cloth nodes x 3
  double residual = 0;        ///< of the eigenpair, as a share of factor - 1 (solver/equilibrium/buckling.hpp)
  bool least_proven = false;  ///< no lower factor exists
};

/// Pull by side after a stage; index 0 top, 1 bottom. Where the frame gave way before the stage had settled nothing stands
/// here but what was met on the way (`worst_slip`).
struct StageSummary {
  int stage = 0;
  bool settled = true;       ///< false: the frame gave way before, and there is no end to read anything off
  bool gave_way = false;     ///< there or when it was released
  double mean_pull_warp[2] = {0, 0}, mean_pull_fill[2] = {0, 0};    ///< N/m
  double mean_pull_chord[2] = {0, 0}, mean_pull_span[2] = {0, 0};   ///< N/m
  Unevenness unevenness[2]{};
  double loose_share = 0;    ///< share of area still loose
  std::vector<int> loose_zones{};  ///< by Panel::zones, settled or released (solver/readings/readings.hpp); rising
  double worst_slip = 0;     ///< m
  double twist = 0;          ///< rad
  std::optional<double> buckling_factor{};      ///< none: the frame gave way
  std::optional<BucklingMode> buckling_mode{};  ///< none: nothing is in compression, or the frame gave way
  ThicknessLoss thickness_loss{};               ///< between ribs, the worst of the panel
  std::vector<ThicknessLoss> thickness_loss_by_bay{};
  double worst_use = 0;      ///< of all limits, up to and including this stage
  bool passes = false;
  bool done = false;         ///< all its steps were done before the plan was made: computed and told, not judged
  NumberStudy pull_chord_study[2]{}, pull_span_study[2]{};  ///< of the mean pulls
  NumberStudy slip_study{};                                 ///< of worst_slip
};

/// A bound run at the end of the chosen plan (inner ribs free or glued).
struct BoundRun {
  std::string name;
  std::vector<std::optional<double>> worst_use;  ///< per stage from `first_stage`; none: the frame gave way
  std::optional<double> unevenness_final;
  double worst_slip = 0;
  int first_stage = 0;  ///< the first that was judged; those before it were done when the plan was made
};

/// What vouches for one equilibrium: docs/model.md, section 9. One for each step, each settled and each released state.
struct Certificate {
  std::string after;            ///< the step's label, "stage end" or "released"
  int stage = 0;
  int iterations = 0;
  double residual = 0;          ///< largest out-of-balance force [N]
  double gap = 0;               ///< duality gap at the friction thresholds of the answer [N m]
  double energy = 0;            ///< 1/2 N:C:N of the cloth + strain energy of the frame [N m]
  double tension_bound = 0;     ///< N/m rms: sqrt(2 gap / (lambda_min(C) area))
  double threshold_error = 0;   ///< of friction, share by which it is off from consistent
};

struct Solve {
  int nodes = 0;             ///< cloth nodes of the full model
  int steps = 0;
  int iterations = 0;
  double worst_residual = 0;             ///< N
  double tension_error_bound = 0;        ///< N/m rms, at the stage ends that are judged
  double tension_error_bound_on_the_way = 0;  ///< N/m rms, of the steps between
  double worst_threshold_error = 0;      ///< friction threshold, share by which it is off from consistent
  std::optional<double> mesh_change;     ///< share of governing use: the finest mesh against the last but one
  std::optional<double> zone_change;     ///< share of governing use: the smallest zones against whole ones
};

/// A run behind the error bars: its mesh and zones.
struct StudyLevel {
  int nodes = 0;
  double edge = 0;     ///< m, mean
  int zone_parts = 1;  ///< into how many each zone was cut
};

struct Advice {
  std::string because;  ///< one or two plain sentences: why this stage
  std::vector<std::string> advice;
  /// Said before all else, in the largest letters: the cloth does not come tight; empty where it does.
  std::string loose_headline{};
  std::string loose{};  ///< a sentence: which zones are loose at the end of which stage; empty if none is
};

struct Plan {
  Case the_case;
  Panel panel;                        ///< of the full model
  AccuracyWish accuracy = AccuracyWish::normal;
  std::vector<StudyLevel> study;      ///< whole zones from coarse to fine, then cut ones; empty: no error bars
  bool replayed = false;              ///< an order somebody chose (command `replay`)
  std::optional<int> ceiling;         ///< index of the hottest safe stage; none: not set
  std::optional<double> setting;      ///< K: hottest setting that would still pass, when it lies between stages
  Advice advice;
  std::string order_name, order_rule; ///< of the chosen order; the rule is a sentence a person can follow
  std::vector<Step> steps;            ///< every step computed, all stages; print those up to the ceiling only
  std::vector<LimitReading> limits;   ///< governing one for each (limit, stage)
  std::vector<OrderResult> orders;
  std::vector<StageSummary> stages;
  std::vector<BoundRun> bounds;
  std::vector<Snapshot> snapshots;    ///< [0] before ironing, then one after each step
  std::vector<int> stage_end_snapshot;  ///< index into snapshots for each stage
  Solve solve;
  std::vector<Certificate> certificates;  ///< of the chosen order
  std::vector<StageSearch> searched;  ///< how good the order is; empty: nothing was searched
  std::vector<FrontPoint> front;      ///< turn-overs against load
  std::string front_sentence, gap_sentence;  ///< of these two, for the sheet; may be empty
  std::vector<PassTrial> pass_trials; ///< ways to pass over the first stage; empty: the case states its passes
  std::vector<StageHeat> heat;        ///< by stage: what the iron has to do
  Chances chances;                    ///< how sure all this is
  std::vector<std::string> notes;     ///< sentences for the sheet: bounds, frame turn, pulling ties, odd rankings

  bool quick() const { return accuracy == AccuracyWish::quick; }
};

/// Readings up to the ceiling (or of the first stage without one), the worst of each name, worst first.
std::vector<LimitReading> worst_readings(const Plan& plan);

}  // namespace evenpull
