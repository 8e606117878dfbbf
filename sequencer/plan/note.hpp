// What a plan says of its own making, as values. The sentences are made in viz/words/note_words.hpp.
#pragma once

#include "sequencer/plan/order_id.hpp"
#include "sequencer/plan/run_id.hpp"
#include "sequencer/plan/stage_summary.hpp"
#include "solver/readings/sag.hpp"

#include <optional>
#include <variant>
#include <vector>

namespace evenpull::inline sequencer {
namespace note {

// Of the panel under its cloth.
struct GivesWay {
  int stage = 0;
};  ///< nothing beyond was computed
struct LiftsOff {
  double force = 0;
};  ///< N at one mesh point, off a bearing
struct FrameTurns {
  double angle = 0;
};  ///< rad: more than small rotations
struct TipFullness {
  double share = 0;
};
struct ThinnerBetweenRibs {
  ThicknessLoss loss;
};
struct WiresPull {
  std::vector<WirePull> wires;
};                     ///< up to the stage told; `end` at the end of it
struct WingGoesOn {};  ///< Case::cloth_goes_on_inboard, cloth_goes_on_outboard: what was taken for the bay beyond

// Of error bars and runs.
struct BarsDecide {
  int without = 0;
};  ///< the stage up to which the order would hold without them
struct GaveWayElsewhere {
  int stage = 0;
};  ///< on another mesh or with smaller zones
struct UnsolvedElsewhere {
  int stage = 0;
};
struct LeftOut {
  std::vector<RunId> runs;
};                          ///< found no equilibrium
struct ChancesUnsolved {};  ///< the order as planned found none on the coarse mesh

/// Not stated how ribs or braces are joined: the worst use (bounds, hottest stage told) softest and stiffest; none: not known.
struct JointsNotStated {
  int stage = 0;
  std::optional<double> softest{}, stiffest{};
  bool computed = false;  ///< the bounds were run; a use that is none gave way, or no balance was found
};

// Of orders.
struct SteadyAgainstJumping {                ///< root to tip beside the handbook's jumping, both on the coarse mesh
  double steady_use = 0, steady_spread = 0;  ///< spread: N/m along the span
  double jumping_use = 0, jumping_spread = 0;
};
struct CoarseRankedOther {
  OrderId first;
};
/// The order with the best score was not taken: in so few of these scenarios it kept the shape.
struct KeepsShapeLess {
  OrderId order;
  int turn_overs = 0, of_the_plan = 0;
  int kept = 0, scenarios = 0;
};
struct FewestTurnOvers {
  int wanted = 0, fewest = 0;
};
struct TurnOversAgainstLoad {};  ///< Plan::trade_offs in a sentence
struct HowGoodTheOrder {};       ///< Plan::searched in a sentence

/// What trials of passes showed at a stage.
struct PassGain {
  enum class What { full_light_unsolved, full_light_unlike, full_gains_little, light };
  int stage = 0;
  What what = What::light;
  int light = 0;                        ///< light passes chosen
  double use = 0;                       ///< worst on the way
  std::optional<double> use_without{};  ///< with full passes alone; none: no equilibrium was found
  bool stage_less_without = false;
};
struct PassesChosen {
  std::vector<PassGain> stages;
};

// Of steps that are done.
struct DoneGaveWay {};
struct DoneOverLimit {
  double use = 0;
};
struct MustWait {
  int zone = 0;
  std::vector<int> before;  ///< zones that come first
  bool unknown = false;     ///< no equilibrium was found for it any earlier
};

}  // namespace note

using Note =
    std::variant<note::GivesWay, note::LiftsOff, note::FrameTurns, note::TipFullness, note::ThinnerBetweenRibs,
                 note::WiresPull, note::WingGoesOn, note::BarsDecide, note::GaveWayElsewhere, note::UnsolvedElsewhere,
                 note::LeftOut, note::ChancesUnsolved, note::JointsNotStated, note::SteadyAgainstJumping,
                 note::CoarseRankedOther, note::KeepsShapeLess, note::FewestTurnOvers, note::TurnOversAgainstLoad,
                 note::HowGoodTheOrder, note::PassesChosen, note::DoneGaveWay, note::DoneOverLimit, note::MustWait>;

}  // namespace evenpull::inline sequencer
