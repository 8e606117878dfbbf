// Cloth that has not come tight at the end of a stage: which zones, and what it means for the answer
// (docs/model.md, section 7).
#pragma once

#include "sequencer/replay/replay.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// Adds zones to a rising list, each once.
void add_zones(std::vector<int>& zones, const std::vector<int>& more);

/// True where the job must not end: a zone carries next to no pull.
bool is_loose(const StageVerdict& v);

}  // namespace evenpull::inline sequencer
