#include "sequencer/zone_graph.hpp"

#include <stdexcept>

namespace evenpull {
namespace {

Eigen::Vector2d centre(const Panel& p, const Zone& z) {
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  for (int q : z.quads) {
    Eigen::Vector3d quad = Eigen::Vector3d::Zero();
    for (int n : p.quads[q].nodes) quad += 0.25 * p.nodes[n].placed;
    sum += p.quads[q].area * quad;
  }
  return (sum / z.area).head<2>();
}

}  // namespace

ZoneGraph zone_graph(const Panel& p) {
  const int n = static_cast<int>(p.zones.size());
  ZoneGraph g(n);
  std::vector<Eigen::Vector2d> at;
  for (const Zone& z : p.zones) at.push_back(centre(p, z));
  for (int a = 0; a < n; ++a)
    for (int b = 0; b < n; ++b)
      if (a != b) boost::add_edge(a, b, {(at[a] - at[b]).norm(), p.zones[a].side != p.zones[b].side}, g);
  return g;
}

Route route_of(const ZoneGraph& g, const std::vector<int>& order) {
  Route r;
  for (std::size_t i = 0; i + 1 < order.size(); ++i) {
    const auto [arc, found] = boost::edge(order[i], order[i + 1], g);
    if (!found) throw std::invalid_argument("an order holds a succession that the zone graph does not have");
    r.travel += g[arc].travel;
    r.turn_overs += g[arc].turn_over ? 1 : 0;
  }
  return r;
}

}  // namespace evenpull
