#include "sequencer/replay/gauges.hpp"

#include "solver/readings/unevenness.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull::inline sequencer {

namespace {

double crippling_use(const Limits& limits, double of_crippling) {
  return limits.crippling_share > 0 ? of_crippling / limits.crippling_share : 0;
}

}  // namespace

GaugeLayout gauge_layout(const Model& m) {
  const Panel& p = m.panel;
  GaugeLayout l;
  int end_ribs = 0;
  for (const FrameMember& f : p.members) {
    const bool end = f.role == MemberRole::end_rib || f.role == MemberRole::tip_bow;
    end_ribs += end ? 1 : 0;
    l.slopes += end || f.role == MemberRole::inner_rib ? 1 : 0;
  }
  l.uses = static_cast<int>(m.beams.size()) + p.bays + end_ribs;
  for (const SlidingPoint& s : m.unknowns.sliding) l.slips += s.kind == SlidingPoint::Kind::wrapped ? 1 : 0;
  l.bays = p.bays;
  l.zones = static_cast<int>(p.zones.size());
  l.allowed_slip = m.the_case.limits.slip;
  for (int z = 0; z < l.zones; ++z) {
    const int side = static_cast<int>(p.zones[z].side);
    l.area[side].push_back(p.zones[z].area);
    l.on_side[side].push_back(z);
  }
  return l;
}

Eigen::VectorXd gauges_of(const Model& m, const GaugeLayout& l, const Readings& r) {
  const Limits& limits = m.the_case.limits;
  Eigen::VectorXd g(l.size());
  int at = 0;
  for (std::size_t b = 0; b < r.beam_use.size(); ++b)
    g[at++] = std::max(r.beam_use[b], crippling_use(limits, r.beam_crippling[b]));
  for (double use : r.edge_bow_uses) g[at++] = use;
  for (double use : r.end_rib_bow_uses) g[at++] = use;
  assert(at == l.first_slope());
  for (double slope : r.rib_slopes) g[at++] = slope / limits.twist;
  for (double slip : r.slips) g[at++] = slip / limits.slip;
  assert(at == l.first_bay());
  for (const std::vector<double>* pull : {&r.zones.chord, &r.zones.span})
    for (Side side : {Side::top, Side::bottom})
      for (int b = 0; b < l.bays; ++b) g[at++] = bay_mean(m.panel, *pull, side, b);
  for (const std::vector<double>* pull : {&r.zones.chord, &r.zones.span})
    for (double v : *pull) g[at++] = v;
  assert(at == l.size());
  return g;
}

void take_gauges(const GaugeLayout& l, const Eigen::VectorXd& g, Tally& worst) {
  if (l.uses > 0) worst.use = std::max(worst.use, g.head(l.uses).maxCoeff());
  if (l.slopes > 0) {
    const auto slopes = g.segment(l.first_slope(), l.slopes);
    worst.use = std::max(worst.use, slopes.maxCoeff() - slopes.minCoeff());
  }
  if (l.slips > 0) {
    const double slip = g.segment(l.first_slip(), l.slips).cwiseAbs().maxCoeff();
    worst.use = std::max(worst.use, slip);
    worst.slip = std::max(worst.slip, slip * l.allowed_slip);
  }
  for (int k = 0; k < 2 && l.bays > 0; ++k) {
    const auto top = g.segment(l.first_bay() + 2 * k * l.bays, l.bays);
    const auto bottom = g.segment(l.first_bay() + (2 * k + 1) * l.bays, l.bays);
    worst.difference = std::max(worst.difference, (top - bottom).cwiseAbs().maxCoeff());
  }
}

Tally tally_of(const Limits& limits, const Readings& r) {
  Tally t;
  t.slip = std::abs(r.slip.value);
  t.use = std::max({r.stress_use.value, crippling_use(limits, r.crippling.value), r.edge_bow.use(), r.end_rib_bow.use(),
                    r.twist / limits.twist, t.slip / limits.slip});
  t.difference = std::max(std::abs(r.difference_chord.value), std::abs(r.difference_span.value));
  t.unevenness = r.unevenness;
  return t;
}

double unevenness_of(const GaugeLayout& l, const Eigen::VectorXd& g) {
  double worst = 0;
  std::vector<ZonePull> zones;
  for (int side = 0; side < 2; ++side) {
    zones.clear();
    for (std::size_t i = 0; i < l.on_side[side].size(); ++i) {
      const int z = l.first_zone() + l.on_side[side][i];
      zones.push_back({l.area[side][i], g[z], g[z + l.zones]});
    }
    worst = std::max(worst, unevenness_of(zones).worst());
  }
  return worst;
}

}  // namespace evenpull::inline sequencer
