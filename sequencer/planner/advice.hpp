// Why this stage, what to do now, and what to say of the panel.
#pragma once

#include "sequencer/plan/advice.hpp"
#include "sequencer/plan/note.hpp"
#include "sequencer/replay/ceiling.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// `stages` with their error bars; `setting`: hottest in between that would pass, if one was found.
Advice advise(const Case& c, const std::vector<StageVerdict>& stages, const std::vector<StageSafety>& safety,
              std::optional<int> ceiling, std::optional<double> setting);

/// What is to be said of the panel under its cloth: that it gives way, cloth that lifts, large rotations, fullness, sag, what
/// its wires pull, that the wing goes on.
std::vector<Note> notes_on(const Case& c, const Panel& p, const std::vector<StageVerdict>& stages,
                           std::optional<int> ceiling);

}  // namespace evenpull::inline sequencer
