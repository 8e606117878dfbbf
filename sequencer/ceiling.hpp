// Stage ceiling: the hottest final stage such that the whole history up to it holds every limit (docs/model.md, 7).
#pragma once

#include "sequencer/replay.hpp"

#include <optional>
#include <vector>

namespace evenpull {

/// Index of the hottest stage that passes; `pessimistic` adds the error bars. Unevenness counts for the last stage only.
std::optional<int> stage_ceiling(const std::vector<StageVerdict>& stages, bool pessimistic);

/// Largest use up to and including a stage: history of all, unevenness of the last.
double worst_use_up_to(const std::vector<StageVerdict>& stages, int last, bool pessimistic);

/// Sets the error bar of each limit of `stages`: what halving the element edge changes, plus what cutting the zones in
/// two changes. A study that ended early (the frame gave way) makes the bar as large as the use itself.
void set_error_bars(std::vector<StageVerdict>& stages, const std::vector<StageVerdict>& finer,
                    const std::vector<StageVerdict>& split);

/// Change of the governing use of a stage in another run, as a share.
double governing_change(const StageVerdict& stage, const std::vector<StageVerdict>& other);

/// Hottest setting [K], whole 5 F steps, between the ceiling and the next stage that still passes; tried by computing
/// the next stage at that setting. `before` is the settled state at the ceiling (or as laid on if there is none).
std::optional<double> setting_between(Ironing& ironing, const Covering& before, const std::vector<StageVerdict>& stages,
                                      std::optional<int> ceiling, const std::vector<Step>& steps_of_next);

}  // namespace evenpull
