// Stage ceiling: the hottest final stage such that the whole history up to it holds every limit (docs/model.md, 7).
#pragma once

#include "sequencer/replay/replay.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// True where the stage itself breaks a limit of damage or distortion, or the frame gives way.
bool breaks_history(const StageVerdict& v, bool pessimistic);

/// Index of the hottest stage that passes; `pessimistic` adds the error bars. Loose cloth counts for the last stage only: on
/// the way to a hotter stage it is usual, the end of the job it cannot be. Limits of finish bar no stage.
std::optional<int> stage_ceiling(const std::vector<StageVerdict>& stages, bool pessimistic);

/// Largest use of damage and distortion up to and including a stage.
double worst_use_up_to(const std::vector<StageVerdict>& stages, int last, bool pessimistic);

/// Hottest setting [K], whole 5 F steps, between the ceiling and the next stage that still passes; tried by computing
/// the next stage at that setting. `before` is the settled state at the ceiling (or as laid on if there is none);
/// `stages` carry error bars, `plain` are the same stages as `ironing`'s own mesh has them.
std::optional<double> setting_between(Ironing& ironing, const Covering& before, const std::vector<StageVerdict>& stages,
                                      const std::vector<StageVerdict>& plain, std::optional<int> ceiling,
                                      const std::vector<Step>& steps_of_next);

}  // namespace evenpull::inline sequencer
