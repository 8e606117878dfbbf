// The whole job as a layered graph: one layer for each pass of each stage, in it every zone; arcs within a layer are the
// successions a person can make (zone_graph.hpp), arcs between layers lead on to the next pass. An order is a path that
// meets every vertex once.
#pragma once

#include "sequencer/orders/zone_graph.hpp"
#include "sequencer/plan/pass_zone.hpp"
#include "sequencer/plan/plan.hpp"

#include <functional>
#include <string>

namespace evenpull::inline sequencer {

using JobGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, PassZone, Succession>;

/// All layers of a case's stages up to and including `last_stage`; vertex = layer * zones + zone.
JobGraph job_graph(const Case& c, const Panel& p, int last_stage);

/// Time and ways of steps that follow arcs of the graph. Throws std::invalid_argument where one does not.
Route route_through(const JobGraph& g, const Case& c, const Panel& p, const std::vector<Step>& steps);

/// The way that the plan takes through the graph, up to its hottest safe stage, as GraphViz text: each zone of each pass a
/// node, each step an arc with its number, turn-overs dashed; neighbours of a zone in its pass in grey. Open standard
/// (DOT language); the same bytes for the same plan. `label`: what stands in a node, lines parted by "\\n".
std::string order_graph(const Plan& plan, const std::function<std::string(const PassZone&)>& label);

}  // namespace evenpull::inline sequencer
