// How the iron and the panel get from one thing to the next: what the arcs of the zone graph say, as tables for searches.
#pragma once

#include "solver/geometry/panel.hpp"

#include <Eigen/Core>

#include <vector>

namespace evenpull::inline sequencer {

/// How the iron gets from one thing to the next; n x n. Empty: ways cost nothing.
struct Ways {
  Eigen::MatrixXd travel;     ///< m
  Eigen::MatrixXi turn_over;  ///< 1 where the panel must be turned over
};

/// Things that are put in order: zones, or groups of zones worked one after the other (one bay of one side, from the LE).
using Things = std::vector<std::vector<int>>;

/// Every zone by itself.
Things single_zones(const Panel& p);
/// One bay of one side each; index = side * bays + bay.
Things whole_bays(const Panel& p);

/// All zones of an order of things.
std::vector<int> zones_in(const Things& things, const std::vector<int>& order);

/// From the last zone of one thing to the first of the next; turn-overs cost nothing where both sides can be reached.
Ways ways_between(const Case& c, const Panel& p, const Things& things);

}  // namespace evenpull::inline sequencer
