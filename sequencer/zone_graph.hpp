// The zones of a pass as a graph (docs/model.md, section 8): vertices are zones, arcs the successions a person can make,
// weighted by the way the iron travels; an arc that changes side is a turn-over.
#pragma once

#include "solver/panel.hpp"

#include <boost/graph/adjacency_list.hpp>

#include <vector>

namespace evenpull {

struct Succession {
  double travel = 0;       ///< m, between zone centres as the panel lies on the bench
  bool turn_over = false;
};

using ZoneGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property, Succession>;

/// Every zone may follow every other one.
ZoneGraph zone_graph(const Panel& p);

/// Ways of one pass: how far the iron travels and how often the panel is turned over.
struct Route {
  double travel = 0;
  int turn_overs = 0;
};

/// Adds up the arcs of an order. Throws std::invalid_argument when a succession is not in the graph.
Route route_of(const ZoneGraph& g, const std::vector<int>& order);

}  // namespace evenpull
