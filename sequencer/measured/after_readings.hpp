// A plan's outcomes once somebody has read: the same inference as the windows'.
#pragma once

#include "sequencer/measured/windows.hpp"
#include "sequencer/plan/safety.hpp"
#include "sequencer/replay/replay.hpp"

#include <vector>

namespace evenpull::inline sequencer {

struct AfterReadings {
  OutcomeModel model;  ///< given the readings; as before where none could be used
  ReadingsTold told;
};

/// What readings are held against: by stage, the bays; bows, twist and slip of all stages.
struct Expected {
  const std::vector<std::vector<BenchCheck>>& bays;
  const std::vector<ShapeReading>& shapes;
};

/// Two readings of one thing count as their mean. Readings that fit neither what was expected nor each other are told and make
/// nothing safe.
AfterReadings after_readings(const OutcomeModel& before, const Case& c, int bays, const std::vector<Measured>& readings,
                             const Expected& expected);

/// Stages as judged, with uses times what the readings make of them.
std::vector<StageVerdict> with_readings(std::vector<StageVerdict> judged, const OutcomeModel& before,
                                        const OutcomeModel& after);

/// What each stage lacks given the readings; `judged` by with_readings.
std::vector<StageSafety> safety_with_readings(const std::vector<StageVerdict>& judged, const AfterReadings& after,
                                              const Case& c);

}  // namespace evenpull::inline sequencer
