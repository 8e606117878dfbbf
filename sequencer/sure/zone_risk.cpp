#include "sequencer/sure/zone_risk.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {

ZoneEnds zone_ends(const Panel& p, const Outturn& o, int stage) {
  ZoneEnds out;
  const std::vector<double>& pull = o.zone_pull[stage];
  if (o.fell[stage] || pull.size() != p.zones.size()) return out;
  double sum = 0, area = 0;
  for (std::size_t z = 0; z < p.zones.size(); ++z) sum += p.zones[z].area * pull[z], area += p.zones[z].area;
  for (std::size_t z = 0; z < p.zones.size(); ++z) {
    out.off_mean.push_back(pull[z] * area / sum - 1);
    double most = 0;
    for (int column = p.rib_columns[p.zones[z].bay]; column <= p.rib_columns[p.zones[z].bay + 1]; ++column)
      most = std::max(most, o.column_slip[stage][column]);
    out.slip.push_back(most);
  }
  return out;
}

ZoneCorrection zone_correction(const ZoneEnds& finer, const ZoneEnds& reduced) {
  ZoneCorrection out;
  if (finer.off_mean.empty() || finer.off_mean.size() != reduced.off_mean.size()) return out;
  for (std::size_t z = 0; z < finer.off_mean.size(); ++z) {
    out.add_to_off_mean.push_back(finer.off_mean[z] - reduced.off_mean[z]);
    out.times_slip.push_back(reduced.slip[z] > 0 && finer.slip[z] > 0 ? finer.slip[z] / reduced.slip[z] : 1);
  }
  return out;
}

ZoneEnds corrected(ZoneEnds ends, const ZoneCorrection& by) {
  if (by.add_to_off_mean.size() != ends.off_mean.size()) return ends;
  for (std::size_t z = 0; z < ends.off_mean.size(); ++z)
    ends.off_mean[z] += by.add_to_off_mean[z], ends.slip[z] *= by.times_slip[z];
  return ends;
}

std::vector<ZoneRisk> zone_risks(int zones, const std::vector<ZoneEnds>& runs, double off_mean_most, double slip_most) {
  std::vector<int> uneven(zones), slides(zones);
  int counted = 0;
  for (const ZoneEnds& r : runs) {
    if (r.off_mean.empty()) continue;
    ++counted;
    for (int z = 0; z < zones; ++z)
      uneven[z] += std::abs(r.off_mean[z]) > off_mean_most, slides[z] += r.slip[z] > slip_most;
  }
  std::vector<ZoneRisk> out;
  for (int z = 0; z < zones; ++z) out.push_back({chance_of(uneven[z], counted), chance_of(slides[z], counted)});
  return out;
}

}  // namespace evenpull::inline sequencer
