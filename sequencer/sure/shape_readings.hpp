// What to expect of bows, twist and slip when a stage is done, and beyond which something is not as stated.
#pragma once

#include "sequencer/plan/chances.hpp"
#include "sequencer/sure/outturn.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// By stage up to `last`. `runs`, `planned`: on the reduced model; `judged`: as printed, by which it is read. A stage that no
/// scenario holds has none.
std::vector<ShapeReading> shape_readings(const std::vector<Outturn>& runs, const Outturn& planned,
                                         const std::vector<StageVerdict>& judged, const ModelReading& reading,
                                         int last);

}  // namespace evenpull::inline sequencer
