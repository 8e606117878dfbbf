// The words of the answer: why this stage, and what to do now.
#pragma once

#include "sequencer/replay/ceiling.hpp"

namespace evenpull {

/// `setting`: hottest setting in between that would pass, if one was found.
Advice advise(const Case& c, const Panel& p, const std::vector<StageVerdict>& stages, std::optional<int> ceiling,
              std::optional<double> setting, bool quick);

/// Sentences about the model for the sheet: cloth that lifts, large rotations, fullness, sag, gave way.
std::vector<std::string> notes_on(const Case& c, const Panel& p, const std::vector<StageVerdict>& stages,
                                  std::optional<int> ceiling);

}  // namespace evenpull
