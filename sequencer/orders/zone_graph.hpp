// The zones of a pass as a graph (docs/model.md, section 8): vertices are zones, arcs the successions a person can make,
// weighted by the way the iron travels; an arc that changes side is a turn-over.
#pragma once

#include "solver/geometry/panel.hpp"

#include <boost/graph/adjacency_list.hpp>

#include <vector>

namespace evenpull::inline sequencer {

struct Succession {
  double travel = 0;  ///< m, between zone centres as the panel lies on the bench
  bool turn_over = false;
  bool neighbour = false;  ///< the zones share a border, or lie back to back
  double seconds = 0;      ///< travel of the hand and, with a turn-over, of the panel
};

using ZoneGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property, Succession>;

/// Seconds to turn the panel over: by its size, and longer where clamps must be undone; 0 where both sides can be
/// reached. Judgement, ours; nothing hangs on it but ties between like orders.
double turn_over_time(const Case& c);

/// Every zone may follow every other one.
ZoneGraph zone_graph(const Panel& p, double turn_over_seconds);

/// Ways of one pass: how far the iron travels and how often the panel is turned over.
struct Route {
  double travel = 0;   ///< m
  double seconds = 0;  ///< on the way, not ironing
  int turn_overs = 0;
};

/// Adds up the arcs of an order. Throws std::invalid_argument when a succession is not in the graph.
Route route_of(const ZoneGraph& g, const std::vector<int>& order);

}  // namespace evenpull::inline sequencer
