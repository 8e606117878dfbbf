#include "viz/panel/zone_means.hpp"

namespace evenpull::viz {

std::vector<double> zone_means(const Panel& panel, const std::vector<float>& per_quad) {
  std::vector<double> means(panel.zones.size(), 0.0);
  for (std::size_t z = 0; z < panel.zones.size(); ++z) {
    double sum = 0, area = 0;
    for (int q : panel.zones[z].quads) {
      sum += panel.quads[q].area * per_quad[q];
      area += panel.quads[q].area;
    }
    if (area > 0) means[z] = sum / area;
  }
  return means;
}

const Snapshot* stage_end(const Plan& plan, int stage) {
  if (stage < 0 || stage >= static_cast<int>(plan.stage_end_snapshot.size())) return nullptr;
  const int i = plan.stage_end_snapshot[stage];
  return i >= 0 && i < static_cast<int>(plan.snapshots.size()) ? &plan.snapshots[i] : nullptr;
}

}  // namespace evenpull::viz
