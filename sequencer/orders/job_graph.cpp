#include "sequencer/orders/job_graph.hpp"

#include <boost/graph/filtered_graph.hpp>
#include <boost/graph/graphviz.hpp>

#include <map>
#include <set>
#include <sstream>
#include <stdexcept>

namespace evenpull::inline sequencer {
namespace {

std::vector<PassZone> layers_of(const Case& c, int last_stage) {
  std::vector<PassZone> layers;
  for (int s = 0; s <= last_stage; ++s)
    for (std::size_t pass = 0; pass < c.stages[s].doses.size(); ++pass)
      layers.push_back({s, static_cast<int>(pass) + 1, 0});
  return layers;
}

int layer_of(const Case& c, int stage, int pass) {
  int layer = pass - 1;
  for (int s = 0; s < stage; ++s) layer += static_cast<int>(c.stages[s].doses.size());
  return layer;
}

using Arc = std::pair<std::size_t, std::size_t>;

}  // namespace

JobGraph job_graph(const Case& c, const Panel& p, int last_stage) {
  const std::vector<PassZone> layers = layers_of(c, last_stage);
  const ZoneGraph within = zone_graph(p, turn_over_time(c));
  const std::size_t n = p.zones.size();
  JobGraph g(layers.size() * n);
  for (std::size_t l = 0; l < layers.size(); ++l) {
    for (std::size_t z = 0; z < n; ++z) {
      g[l * n + z] = layers[l];
      g[l * n + z].zone = static_cast<int>(z);
    }
    for (auto [arc, end] = boost::edges(within); arc != end; ++arc) {
      const std::size_t a = boost::source(*arc, within), b = boost::target(*arc, within);
      boost::add_edge(l * n + a, l * n + b, within[*arc], g);
      if (l + 1 < layers.size()) boost::add_edge(l * n + a, (l + 1) * n + b, within[*arc], g);
    }
    if (l + 1 < layers.size())  // the zone worked last may begin the next pass
      for (std::size_t z = 0; z < n; ++z) boost::add_edge(l * n + z, (l + 1) * n + z, Succession{}, g);
  }
  return g;
}

Route route_through(const JobGraph& g, const Case& c, const Panel& p, const std::vector<Step>& steps) {
  Route r;
  const std::size_t n = p.zones.size();
  const auto vertex = [&](const Step& s) {
    return static_cast<std::size_t>(layer_of(c, s.stage, s.pass)) * n + static_cast<std::size_t>(s.zone);
  };
  for (std::size_t i = 0; i + 1 < steps.size(); ++i) {
    const auto [arc, found] = boost::edge(vertex(steps[i]), vertex(steps[i + 1]), g);
    if (!found) throw std::invalid_argument("the steps take a way that the graph of the job does not have");
    r.travel += g[arc].travel;
    r.seconds += g[arc].seconds;
    r.turn_overs += g[arc].turn_over ? 1 : 0;
  }
  return r;
}

std::string order_graph(const Plan& plan, const std::function<std::string(const PassZone&)>& label) {
  std::ostringstream out;
  const int last = plan.ceiling.value_or(-1);
  const Panel& p = plan.panel;
  const Case& c = plan.the_case;
  const JobGraph g = job_graph(c, p, last);
  std::map<Arc, int> taken;
  std::size_t before = 0;
  int number = 0;
  for (const Step& s : plan.steps) {
    if (s.stage > last) break;
    const std::size_t v =
        static_cast<std::size_t>(layer_of(c, s.stage, s.pass)) * p.zones.size() + static_cast<std::size_t>(s.zone);
    if (number > 0) taken[{before, v}] = number;
    ++number;
    before = v;
  }
  const auto arc_of = [&](const JobGraph::edge_descriptor& e) { return Arc{boost::source(e, g), boost::target(e, g)}; };
  const std::function<bool(const JobGraph::edge_descriptor&)> shown = [&](const JobGraph::edge_descriptor& e) {
    const PassZone &a = g[boost::source(e, g)], &b = g[boost::target(e, g)];
    const bool same_layer = a.stage == b.stage && a.pass == b.pass;
    return taken.count(arc_of(e)) > 0 || (same_layer && g[e].neighbour && a.zone < b.zone);
  };
  const boost::filtered_graph<JobGraph, std::function<bool(const JobGraph::edge_descriptor&)>> view(g, shown);
  boost::write_graphviz(
      out, view, [&](std::ostream& o, std::size_t v) { o << "[label=\"" << label(g[v]) << "\"]"; },
      [&](std::ostream& o, const JobGraph::edge_descriptor& e) {
        const auto found = taken.find(arc_of(e));
        if (found == taken.end()) o << "[color=gray, dir=none]";
        else o << "[label=\"" << found->second << "\"" << (g[e].turn_over ? ", style=dashed" : "") << ", penwidth=2]";
      },
      [&](std::ostream& o) {
        o << "// The order as a way through the zones of every pass; dashed: turn the panel over; gray: neighbours.\n"
          << "node [shape=box];\n";
      });
  return out.str();
}

}  // namespace evenpull::inline sequencer
