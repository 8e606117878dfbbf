#include "sequencer/orders/zone_graph.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace evenpull::inline sequencer {
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

constexpr double hand_speed = 0.5;            // m/s, of the iron from zone to zone
constexpr double least_turn_over = 15;        // s
constexpr double turn_over_by_area = 30;      // s/m^2 of plan area
constexpr double turn_over_with_clamps = 60;  // s more

bool neighbours(const Zone& a, const Zone& b) {
  const int bays = std::abs(a.bay - b.bay), strips = std::abs(a.strip - b.strip);
  return a.side == b.side ? bays + strips == 1 : bays + strips == 0;
}

}  // namespace

double turn_over_time(const Case& c) {
  if (c.both_sides_reachable) return 0;
  double area = 0;
  const auto& le = c.outline.leading_edge;
  const auto& te = c.outline.trailing_edge;
  if (!le.empty() && !te.empty())
    area = 0.5 * ((te.front().x - le.front().x) + (te.back().x - le.back().x)) * c.outline.span();
  const bool clamps = std::any_of(c.while_ironed.begin(), c.while_ironed.end(),
                                  [](const Support& s) { return s.kind == SupportKind::clamp; });
  return least_turn_over + turn_over_by_area * area + (clamps ? turn_over_with_clamps : 0);
}

ZoneGraph zone_graph(const Panel& p, double turn_over_seconds) {
  const int n = static_cast<int>(p.zones.size());
  ZoneGraph g(n);
  std::vector<Eigen::Vector2d> at;
  for (const Zone& z : p.zones) at.push_back(centre(p, z));
  for (int a = 0; a < n; ++a)
    for (int b = 0; b < n; ++b)
      if (a != b) {
        Succession s;
        s.travel = (at[a] - at[b]).norm();
        s.turn_over = p.zones[a].side != p.zones[b].side;
        s.neighbour = neighbours(p.zones[a], p.zones[b]);
        s.seconds = s.travel / hand_speed + (s.turn_over ? turn_over_seconds : 0);
        boost::add_edge(a, b, s, g);
      }
  return g;
}

Route route_of(const ZoneGraph& g, const std::vector<int>& order) {
  Route r;
  for (std::size_t i = 0; i + 1 < order.size(); ++i) {
    const auto [arc, found] = boost::edge(order[i], order[i + 1], g);
    if (!found) throw std::invalid_argument("an order holds a succession that the zone graph does not have");
    r.travel += g[arc].travel;
    r.seconds += g[arc].seconds;
    r.turn_overs += g[arc].turn_over ? 1 : 0;
  }
  return r;
}

}  // namespace evenpull::inline sequencer
