// How the job turned out in one scenario, and how that is read when a reduced model stands for a finer one
// (docs/model.md, section 9).
#pragma once

#include "sequencer/replay/replay.hpp"

#include <map>
#include <vector>

namespace evenpull::inline sequencer {

using UseByLimit = std::map<Limit, double>;

/// What a scenario gave, by stage: use of each limit, or that it did not stand.
struct Outturn {
  std::vector<double> sigmas;
  std::vector<UseByLimit> uses;  ///< by stage
  std::vector<std::vector<double>> zone_pull, column_slip;
  std::vector<bool> fell;               ///< gave way, or no equilibrium
  std::vector<std::vector<int>> loose;  ///< zones that have not come tight
  bool solved = true;                   ///< an equilibrium was found throughout
};

/// Of a run judged up to a stage; stages that it did not come to fell.
Outturn outturn_of(const std::vector<StageVerdict>& stages, int last);

/// Full over reduced in the run as planned, for each limit and stage. Where the frame gave way in one of them a use is that
/// of what came before, so it may raise what the scenarios read and never lower it.
std::vector<UseByLimit> ratios(const Outturn& full, const Outturn& reduced);

/// The use that a reduced model found, multiplied by its ratio; far over where the frame did not stand.
double corrected_use(const Outturn& o, const std::vector<UseByLimit>& ratio, int stage, Limit limit);

/// Zones that the reduced model leaves loose though the one it stands for does not: that is its own doing.
std::vector<std::vector<int>> loose_by_itself(const Outturn& full, const Outturn& reduced);

/// How a model that stands for a finer one is read.
struct ModelReading {
  std::vector<UseByLimit> ratio;              ///< by stage
  std::vector<std::vector<int>> not_counted;  ///< zones whose looseness says nothing, by stage
  std::vector<bool> never{};                  ///< by stage: what stands against it this model does not see at all
};

/// Stages that no scenario may hold: zones end loose that the reduced model finds tight, or a run behind the error bars gave
/// way or was not solved.
std::vector<bool> never_hold(const std::vector<StageVerdict>& judged, const Outturn& full, const Outturn& reduced);

/// The whole history holds: unevenness and loose cloth count at the stage itself only.
bool holds(const Outturn& o, const ModelReading& reading, int stage);

/// The limits that were read, in order of first use.
std::vector<Limit> limits_of(const Outturn& o);

}  // namespace evenpull::inline sequencer
