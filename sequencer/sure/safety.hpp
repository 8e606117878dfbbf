// The one verdict from limits and chances (docs/model.md, section 9).
#pragma once

#include "sequencer/plan/chances.hpp"
#include "sequencer/plan/safety.hpp"
#include "sequencer/replay/replay.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// Damage that is rare enough, by what is wanted in `k`.
bool damage_is_rare(const Chances& k, int stage);
/// The whole interval of the chance lies at or above what is wanted: where it does not, the lower stage.
bool shape_is_sure(const Chances& k, int stage);
/// The interval holds what is wanted: more scenarios would tell.
bool shape_is_open(const Chances& k, int stage);

/// Of each stage judged, what it lacks; without a study of chances as stated alone. Stages that were not studied lack what
/// a cooler one lacks, or what they lack as stated.
std::vector<StageSafety> stage_safety(const std::vector<StageVerdict>& judged, const Chances& k);

}  // namespace evenpull::inline sequencer
