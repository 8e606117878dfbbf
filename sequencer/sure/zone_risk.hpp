// Which zones are at risk, read off scenarios on a reduced model (docs/model.md, section 9).
#pragma once

#include "sequencer/plan/chances.hpp"
#include "sequencer/sure/outturn.hpp"
#include "solver/geometry/panel.hpp"

#include <vector>

namespace evenpull::inline sequencer {

/// The end of a stage zone by zone, by Panel::zones: pull as a share of the panel's mean less 1, and the largest slip at the
/// stations of the zone's bay [m]. Empty where the frame gave way.
struct ZoneEnds {
  std::vector<double> off_mean, slip;
};
ZoneEnds zone_ends(const Panel& p, const Outturn& o, int stage);

/// What a finer model found in the run as planned beyond the reduced one.
struct ZoneCorrection {
  std::vector<double> add_to_off_mean, times_slip;  ///< by zone; empty: nothing is known, ends are taken as they are
};
ZoneCorrection zone_correction(const ZoneEnds& finer, const ZoneEnds& reduced);

ZoneEnds corrected(ZoneEnds ends, const ZoneCorrection& by);

/// `off_mean_most`: a zone whose pull is off the mean by more pulls unevenly; `slip_most` [m].
std::vector<ZoneRisk> zone_risks(int zones, const std::vector<ZoneEnds>& runs, double off_mean_most, double slip_most);

}  // namespace evenpull::inline sequencer
