#include "sequencer/orders/ways.hpp"

#include "sequencer/orders/zone_graph.hpp"

namespace evenpull::inline sequencer {

Things single_zones(const Panel& p) {
  Things t;
  for (int z = 0; z < static_cast<int>(p.zones.size()); ++z) t.push_back({z});
  return t;
}

Things whole_bays(const Panel& p) {
  Things t;
  for (int block = 0; block < 2 * p.bays; ++block) {
    t.emplace_back();
    for (int k = 0; k < p.strips; ++k)
      if (const int z = p.zone(static_cast<Side>(block / p.bays), block % p.bays, k); z >= 0) t.back().push_back(z);
  }
  return t;
}

std::vector<int> zones_in(const Things& things, const std::vector<int>& order) {
  std::vector<int> zones;
  for (int i : order) zones.insert(zones.end(), things[i].begin(), things[i].end());
  return zones;
}

Ways ways_between(const Case& c, const Panel& p, const Things& things) {
  const int n = static_cast<int>(things.size());
  const ZoneGraph g = zone_graph(p, turn_over_time(c));
  Ways w{Eigen::MatrixXd::Zero(n, n), Eigen::MatrixXi::Zero(n, n)};
  for (int a = 0; a < n; ++a)
    for (int b = 0; b < n; ++b) {
      if (a == b) continue;
      const Succession& s = g[boost::edge(things[a].back(), things[b].front(), g).first];
      w.travel(a, b) = s.travel;
      w.turn_over(a, b) = s.turn_over && !c.both_sides_reachable ? 1 : 0;
    }
  return w;
}

}  // namespace evenpull::inline sequencer
