#include "sequencer/search/subset_bound.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace evenpull {
namespace {

// Cost of every set, walked so that each needs one column more than the one before it in depth.
void cost_sets(const GaugeLayout& layout, const Eigen::MatrixXd& effect, const Prices& prices, int first, unsigned set,
               const Eigen::VectorXd& gauges, std::vector<float>& cost) {
  Tally t;
  take_gauges(layout, gauges, t);
  cost[set] = static_cast<float>(least_cost_of(t, prices));
  for (int z = first; z < effect.cols(); ++z)
    cost_sets(layout, effect, prices, z + 1, set | 1u << z, gauges + effect.col(z), cost);
}

}  // namespace

SubsetAnswer best_by_subsets(const InfluenceModel& m, const Prices& prices) {
  const Influence& i = m.influence();
  const int n = m.size();
  if (n > most_in_subsets) throw std::invalid_argument("too many things for dynamic programming over subsets");
  const unsigned all = (1u << n) - 1;
  std::vector<float> worst(all + 1u);
  Eigen::MatrixXd effect(i.start.size(), n);
  for (int z = 0; z < n; ++z) effect.col(z) = InfluenceModel::gauges(*m.step(m.begin(), z)) - i.start;
  cost_sets(i.layout, effect, prices, 0, 0, i.start, worst);
  std::vector<signed char> last(all + 1u, -1);
  for (unsigned set = 1; set <= all; ++set) {
    float before = std::numeric_limits<float>::infinity();
    for (int z = 0; z < n; ++z)
      if (set & 1u << z && worst[set ^ 1u << z] < before)
        before = worst[set ^ 1u << z], last[set] = static_cast<signed char>(z);
    worst[set] = std::max(worst[set], before);
  }
  SubsetAnswer out;
  out.worst = worst[all];
  for (unsigned set = all; set != 0; set ^= 1u << last[set]) out.order.push_back(last[set]);
  std::reverse(out.order.begin(), out.order.end());
  return out;
}

}  // namespace evenpull
