// Cloth that has not come tight at the end of a stage: which zones, in words, and what it means for the answer
// (docs/model.md, section 7).
#pragma once

#include "sequencer/replay/replay.hpp"

#include <string>
#include <vector>

namespace evenpull {

/// Adds zones to a rising list, each once.
void add_zones(std::vector<int>& zones, const std::vector<int>& more);

/// True where the job must not end: a zone carries next to no pull.
bool is_loose(const StageVerdict& v);

/// "all of the cloth", "all of the top, B3 and B4", "T7"; zones rising.
std::string zones_text(const Panel& p, const std::vector<int>& zones);

/// "Loose cloth after 250 F (121 C): all of the top and B3 with next to no pull."
std::string loose_sentence(const Case& c, const Panel& p, const StageSummary& s);

}  // namespace evenpull
