// The readings that limits and differences are made from, as one vector: where the cloth is tight these superpose, which
// the limits themselves (the worst of many) do not.
#pragma once

#include "sequencer/replay/tally.hpp"
#include "solver/readings/readings.hpp"

#include <Eigen/Core>

namespace evenpull::inline sequencer {

/// How a vector of gauges is laid out, one part after the other in this order.
struct GaugeLayout {
  int uses = 0;                 ///< shares of a limit: each beam, bow of each bay of the TE, bow of each end rib
  int slopes = 0;               ///< of the chord line at each rib / allowed twist; their range is a use
  int slips = 0;                ///< at each station of the TE / allowed slip, signed
  int bays = 0;                 ///< chordwise pull top and bottom, then spanwise pull top and bottom, of each bay [N/m]
  int zones = 0;                ///< chordwise, then spanwise pull of each zone [N/m]
  double allowed_slip = 1;      ///< m
  std::vector<double> area[2];  ///< of the zones of each side, in their order [m^2]; empty: no unevenness
  std::vector<int> on_side[2];  ///< which zones these are

  int first_slope() const { return uses; }
  int first_slip() const { return uses + slopes; }
  int first_bay() const { return uses + slopes + slips; }
  int first_zone() const { return first_bay() + 4 * bays; }
  int size() const { return first_zone() + 2 * zones; }
};

GaugeLayout gauge_layout(const Model& m);

/// Gauges of a state that was read off. Length GaugeLayout::size().
Eigen::VectorXd gauges_of(const Model& m, const GaugeLayout& layout, const Readings& r);

/// Use, pull difference and slip that gauges stand for, added to `worst`.
void take_gauges(const GaugeLayout& layout, const Eigen::VectorXd& gauges, Tally& worst);

/// Use, pull difference and slip at one moment, straight from its readings; unevenness as well.
Tally tally_of(const Limits& limits, const Readings& r);

/// Unevenness: worst coefficient of variation over the zones of a side, chordwise and spanwise.
double unevenness_of(const GaugeLayout& layout, const Eigen::VectorXd& gauges);

}  // namespace evenpull::inline sequencer
