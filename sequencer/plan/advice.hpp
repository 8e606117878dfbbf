// Why the answer is what it is and what to do, as values. The sentences are made in viz/words/advice_words.hpp.
#pragma once

#include "sequencer/plan/chances.hpp"
#include "sequencer/plan/limit.hpp"
#include "sequencer/plan/safety.hpp"

#include <optional>
#include <variant>
#include <vector>

namespace evenpull::inline sequencer {

/// Why a stage cannot be the last one.
struct StageStop {
  int stage = 0;
  bool gave_way = false;               ///< it buckles under the pull of the cloth
  bool judged = true;                  ///< false: done before the plan was made
  std::optional<LimitReading> over{};  ///< the reading that stops it
  std::vector<int> loose_zones{};      ///< not tight at its end
  StageSafety safety{};                ///< what else it lacks
};

/// Cloth that does not come tight at the end of a stage.
struct LooseCloth {
  int stage = 0;
  std::vector<int> zones;            ///< by Panel::zones, rising
  std::optional<int> tight_after{};  ///< a hotter stage, at which the job may end
};

/// When a stage is not safe: is it the way there or the end that is too much, and would a stage in between open the way?
struct WayThere {
  int stage = 0;                        ///< the one that is not safe
  bool fails_on_the_way = false;        ///< settled and released it would hold; what fails is passed through on the way
  bool gives_way = false;               ///< the frame buckles
  std::optional<double> extra_stage{};  ///< K: ironed first at this setting, one full pass, it would hold (coarse mesh)
};

namespace advice {

struct SettingBetween {
  double setting = 0;
};  ///< K: would still pass
struct StaysLoose {};
struct DoNotIron {};
struct StopAndAsk {};
struct MeasureFirst {
  Unsure input = Unsure::pull;
};  ///< on which the chance that is lacking hangs most
struct AskedTooHot {
  double asked = 0;
};  ///< K: by the approved data, hotter than the panel bears
struct AskedNotComputed {
  double asked = 0;
};  ///< K: by the approved data, no stage of the case
struct AdhesiveBearsLess {
  double bears = 0;    ///< K: by its maker, as the case states
  double coolest = 0;  ///< K: of the stages left out for it
};
struct LookUpLastStage {
  int ceiling = 0;
};
struct BracingHelps {};
struct CoatsTauten {};
struct AddStage {
  WayThere way;
};

}  // namespace advice

using AdviceItem =
    std::variant<advice::SettingBetween, advice::StaysLoose, advice::DoNotIron, advice::StopAndAsk,
                 advice::MeasureFirst, advice::AskedTooHot, advice::AskedNotComputed, advice::LookUpLastStage,
                 advice::BracingHelps, advice::CoatsTauten, advice::AddStage, advice::AdhesiveBearsLess>;

struct Advice {
  enum class UpTo { holds, done, none_holds, none_can_be_last, none_is_sure, coats_tauten };
  UpTo up_to = UpTo::none_holds;          ///< what is said of the hottest safe stage
  std::optional<LimitReading> closest{};  ///< there, where it was judged
  std::vector<StageStop> stops{};         ///< each stage beyond, up to the first that no hotter one can make good
  std::optional<WayThere> way{};          ///< of the first of them, where no stage in between helps
  std::vector<AdviceItem> items{};
  bool never_tight = false;  ///< said before all else: the cloth does not come tight
  std::optional<LooseCloth> loose{};
};

}  // namespace evenpull::inline sequencer
