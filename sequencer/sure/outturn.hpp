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
  std::vector<std::vector<double>> bay_pull;  ///< by stage and gauge_of_bay; empty where it did not come to its end
  std::vector<StageEnd> end;                  ///< by stage
  std::vector<bool> fell;                     ///< gave way, or no equilibrium
  std::vector<std::vector<int>> loose;        ///< zones that have not come tight
  bool solved = true;                         ///< an equilibrium was found throughout
};

/// Of a run judged up to a stage; stages that it did not come to fell.
Outturn outturn_of(const std::vector<StageVerdict>& stages, int last);

/// How a use that a reduced model found is read: sqrt(use^2 + beside) times `by`.
struct Correction {
  double by = 1, beside = 0;
};
using CorrectionByLimit = std::map<Limit, Correction>;

/// Full over reduced in the run as planned, for each limit and stage. Unevenness of the order and of its mesh stands beside
/// what iron and hand bring into it by chance, as squares that add up: the difference of squares. Where the frame gave way in one of them a use is that
/// of what came before, so it may raise what the scenarios read and never lower it.
std::vector<CorrectionByLimit> corrections(const Outturn& full, const Outturn& reduced);

/// A scenario that was run through both models.
struct Pair {
  const Outturn& full;
  const Outturn& reduced;
};

/// `corrections`, raised by what the full model found in these pairs beyond the reduced one read by `to_full`, in the mean
/// of the logarithms. The run as planned need not be typical; few pairs do not suffice to lower what scenarios read.
std::vector<CorrectionByLimit> raised(std::vector<CorrectionByLimit> corrections,
                                      const std::vector<CorrectionByLimit>& to_full, const std::vector<Pair>& pairs);

/// The use that a reduced model found, corrected; far over where the frame did not stand.
double corrected_use(const Outturn& o, const std::vector<CorrectionByLimit>& corrections, int stage, Limit limit);

/// Zones that the reduced model leaves loose though the one it stands for does not: that is its own doing.
std::vector<std::vector<int>> loose_by_itself(const Outturn& full, const Outturn& reduced);

/// How a model that stands for a finer one is read.
struct ModelReading {
  std::vector<CorrectionByLimit> corrections;  ///< by stage
  std::vector<std::vector<int>> not_counted;   ///< zones whose looseness says nothing, by stage
  std::vector<bool> never{};                   ///< by stage: what stands against it this model does not see at all
  std::vector<bool> gave_way{};                ///< by stage: a run behind the error bars gave way or was not solved
};

/// Stages that no scenario may hold: zones end loose that the reduced model finds tight, or a run behind the error bars gave
/// way or was not solved.
std::vector<bool> never_hold(const std::vector<StageVerdict>& judged, const Outturn& full, const Outturn& reduced);

/// No limit of distortion is passed up to a stage. A frame that gives way is distorted, and so is one of which nothing is known.
bool keeps_shape(const Outturn& o, const ModelReading& reading, int stage);

/// The whole history holds: unevenness and loose cloth count at the stage itself only, waves not at all.
bool holds(const Outturn& o, const ModelReading& reading, int stage);

/// The limits that were read, in order of first use.
std::vector<Limit> limits_of(const Outturn& o);

}  // namespace evenpull::inline sequencer
