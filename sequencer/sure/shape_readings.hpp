// What to expect of bows, twist and slip when a stage is done, and beyond which something is not as stated.
#pragma once

#include "sequencer/plan/chances.hpp"
#include "sequencer/sure/outturn.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// Limits that are read as a shape when a stage is done.
const std::vector<Limit>& shape_limits();
/// What of a stage's end such a reading shows, in the unit of ShapeReading.
double shape_value(const StageEnd& end, Limit limit);
/// What one unit of it comes to where it is read [m]: bows between the closest ribs and joints, twist over the chord.
double shape_length(const Case& c, Limit limit);
/// The finest that a person reads of it [m]: a ruler, pencil marks.
double shape_instrument(Limit limit);

/// By stage up to `last`. `runs`, `planned`: on the reduced model; `judged`: as printed, by which it is read. A stage that no
/// scenario holds has none.
std::vector<ShapeReading> shape_readings(const std::vector<Outturn>& runs, const Outturn& planned,
                                         const std::vector<StageVerdict>& judged, const ModelReading& reading,
                                         int last);

}  // namespace evenpull::inline sequencer
