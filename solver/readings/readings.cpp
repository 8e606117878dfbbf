#include "solver/readings/readings.hpp"

#include "solver/frame/member_stress.hpp"
#include "solver/readings/bows.hpp"
#include "solver/readings/member_pull.hpp"
#include "solver/readings/pocket_room.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenpull::inline solver {
namespace {

constexpr double root2 = 1.41421356237309504880;

void read_cloth(const Model& m, const Covering& s, double loose, Readings& r) {
  const Panel& p = m.panel;
  const std::size_t n = p.zones.size();
  ZonePulls& z = r.zones;
  z.chord.assign(n, 0), z.span.assign(n, 0), z.warp.assign(n, 0), z.fill.assign(n, 0);
  std::vector<double> major(n, 0), loose_area(n, 0);  // of each zone, the latter as a share
  for (int q = 0; q < static_cast<int>(p.quads.size()); ++q) {
    const QuadPull pull = quad_pull(m, s, q);
    const Quad& quad = p.quads[q];
    const double share = quad.area / p.zones[quad.zone].area;
    z.chord[quad.zone] += share * pull.chord;
    z.span[quad.zone] += share * pull.span;
    z.warp[quad.zone] += share * pull.yarn[0];
    z.fill[quad.zone] += share * pull.yarn[1];
    major[quad.zone] += share * pull.principal.major;
    if (pull.principal.major < loose) r.loose_share += quad.area / m.cloth_area, loose_area[quad.zone] += share;
    else if (pull.principal.minor < loose) r.puckered_share += quad.area / m.cloth_area;
  }
  for (std::size_t i = 0; i < n; ++i)
    if (major[i] < loose || loose_area[i] > most_loose_in_a_zone) r.loose_zones.push_back(static_cast<int>(i));
}

void read_differences(const Panel& p, Readings& r) {
  double low[2] = {1e300, 1e300}, high[2] = {-1e300, -1e300};
  for (int b = 0; b < p.bays; ++b) {
    const double chord[2] = {bay_mean(p, r.zones.chord, Side::top, b), bay_mean(p, r.zones.chord, Side::bottom, b)};
    const double span[2] = {bay_mean(p, r.zones.span, Side::top, b), bay_mean(p, r.zones.span, Side::bottom, b)};
    const double dc = chord[0] - chord[1], ds = span[0] - span[1];
    if (std::abs(dc) > std::abs(r.difference_chord.value) || r.difference_chord.bay < 0)
      r.difference_chord.value = dc, r.difference_chord.bay = b;
    if (std::abs(ds) > std::abs(r.difference_span.value) || r.difference_span.bay < 0)
      r.difference_span.value = ds, r.difference_span.bay = b;
    for (int k = 0; k < 2; ++k) low[k] = std::min(low[k], chord[k]), high[k] = std::max(high[k], chord[k]);
  }
  r.spread_along_span = std::max(high[0] - low[0], high[1] - low[1]);
}

void read_unevenness(const Panel& p, Readings& r) {
  for (const Side side : {Side::top, Side::bottom}) {
    std::vector<ZonePull> zones;
    for (std::size_t z = 0; z < p.zones.size(); ++z)
      if (p.zones[z].side == side) zones.push_back({p.zones[z].area, r.zones.chord[z], r.zones.span[z]});
    Unevenness& u = r.unevenness_by_side[static_cast<int>(side)] = unevenness_of(zones);
    r.unevenness = std::max(r.unevenness, u.worst());
  }
}

// Use of crippling in one beam, where it is judged.
double read_flats(const Model& m, int b, const BeamForces& at_ends, const BeamLoad& pull, Readings& r) {
  const auto i = static_cast<std::size_t>(b);
  const BeamFlats& flats = m.flats[i];
  if (flats.flats.empty()) return 0;
  const Beam& beam = m.panel.beams[i];
  const BeamForces f = beam_forces_inside(m.beams[i], at_ends, pull, flats.inset);
  double worst = 0;
  for (int end = 0; end < 2; ++end) {
    const FlatUse use = flat_use(flats, end == 0 ? beam.section_from : beam.section_to, f, end);
    const auto take = [&](double value, Worst& w) {
      if (value > w.value || w.member < 0)
        w.value = value, w.member = beam.member, w.joint = end == 0 ? beam.from : beam.to;
    };
    if (flats.folded_edge) take(use.of_buckling, r.waves);
    if (flats.known_to_bear) continue;
    take(use.of_crippling, r.crippling);
    worst = std::max(worst, use.of_crippling);
  }
  return worst;
}

void read_stress(const Model& m, const Covering& s, Readings& r) {
  const std::vector<BeamLoad> pull = pull_on_beams(m, s);
  std::vector<char> is_wire(m.beams.size(), 0);
  for (const Wire& w : m.wires) {
    is_wire[w.beam] = 1;
    r.wire_pulls.push_back(s.axial[w.beam]);
  }
  for (std::size_t b = 0; b < m.beams.size(); ++b) {
    const Beam& beam = m.panel.beams[b];
    const Material& material = m.the_case.materials[m.panel.members[beam.member].material];
    const Limits& limits = m.the_case.limits;
    EndUse ends[2];
    double crippling = 0;
    if (!m.stands(b, s.held)) {
      r.beam_use.push_back(0);
      r.beam_crippling.push_back(0);
      continue;
    }
    if (is_wire[b]) {
      ends[0] = ends[1] = wire_use(material, limits, s.axial[b] / beam.section.area);
    } else {
      const BeamForces f = beam_forces(m.beams[b], ends_of(beam, s.unknowns), s.axial[b], pull[b]);
      ends[0] = end_use(material, limits, beam.section_from, f, 0, beam.weld_from);
      ends[1] = end_use(material, limits, beam.section_to, f, 1, beam.weld_to);
      crippling = read_flats(m, static_cast<int>(b), f, pull[b], r);
    }
    const int worse = ends[1].use > ends[0].use ? 1 : 0;
    const EndUse& end = ends[worse];
    r.beam_use.push_back(end.use);
    const bool metal = material.kind == Strength::yield;
    for (WorstStress* worst : {&r.stress_use, metal ? &r.metal_stress_use : &r.wood_stress_use}) {
      if (end.use <= worst->value && worst->member >= 0) continue;
      worst->value = end.use, worst->member = beam.member, worst->joint = worse ? beam.to : beam.from;
      worst->allowed = end.allowed, worst->compression = end.compression, worst->at_weld = end.at_weld;
    }
    r.beam_crippling.push_back(crippling);
  }
}

void read_twist(const Model& m, const Covering& s, Readings& r) {
  double low = 1e300, high = -1e300, innermost = 1e300, outermost = -1e300, root = 0, tip = 0;
  for (const FrameMember& f : m.panel.members) {
    if (f.role != MemberRole::end_rib && f.role != MemberRole::inner_rib && f.role != MemberRole::tip_bow) continue;
    const int a = f.joints.front(), b = f.joints.back();
    const double chord = m.panel.joints[b].position.x() - m.panel.joints[a].position.x();
    const double slope = std::atan((s.unknowns[6 * b + 2] - s.unknowns[6 * a + 2]) / chord);
    r.rib_slopes.push_back(slope);
    low = std::min(low, slope), high = std::max(high, slope);
    const double station = m.panel.joints[a].position.y();
    if (station < innermost) innermost = station, root = slope;
    if (station > outermost) outermost = station, tip = slope;
  }
  r.twist = high - low;
  r.tip_turn = tip - root;
  // A thin trailing edge turning about itself moves the cloth by far less than its own thickness: it does not count.
  std::vector<char> on_edge(m.panel.joints.size(), 0);
  for (const FrameMember& f : m.panel.members)
    if (f.role == MemberRole::trailing_edge)
      for (int j : f.joints) on_edge[j] = 1;
  for (std::size_t j = 0; j < m.panel.joints.size(); ++j) {
    Eigen::Vector3d turn = s.unknowns.segment<3>(6 * static_cast<int>(j) + 3);
    if (on_edge[j]) turn.y() = 0;
    r.frame_turn = std::max(r.frame_turn, turn.norm());
  }
}

// Chordwise pull [N/m] at a station of the trailing edge: the larger mean of the zones that end there. Means over zones
// do not depend on the mesh, as the pull beside one node does.
double pull_at_edge(const Panel& p, const Readings& r, int column) {
  double most = 0;
  for (int b = 0; b < p.bays; ++b) {
    if (column < p.rib_columns[b] || column > p.rib_columns[b + 1]) continue;
    if (p.pocket_in(b) >= 0) continue;
    for (Side side : {Side::top, Side::bottom}) most = std::max(most, r.zones.chord[p.zone(side, b, p.strips - 1)]);
  }
  return most;
}

void read_sliding(const Model& m, const Covering& s, double tight, Readings& r) {
  for (std::size_t i = 0; i < m.unknowns.sliding.size(); ++i) {
    const SlidingPoint& p = m.unknowns.sliding[i];
    if (p.kind == SlidingPoint::Kind::wrapped) {
      const double q = s.unknowns[p.first_unknown];
      const bool judged = pull_at_edge(m.panel, r, p.column) >= tight;
      r.slips.push_back(judged ? q : 0);
      if (!judged) continue;
      if (std::abs(q) > std::abs(r.slip.value) || r.slip.column < 0) r.slip.value = q, r.slip.column = p.column;
    } else {
      r.creep = std::max(r.creep, s.unknowns.segment<2>(p.first_unknown).norm());
      if (!s.attached.empty() && s.attached[i]) continue;  // the fastening bears what the cloth lifts with
      const ClothNode& n = m.panel.nodes[p.top_node];
      r.lift = std::max(r.lift, -s.nodal_force[p.top_node].dot(n.normal));
    }
  }
}

}  // namespace

double bay_mean(const Panel& p, const std::vector<double>& zone_values, Side side, int bay) {
  double sum = 0, area = 0;
  for (int k = 0; k < p.strips; ++k) {
    const int z = p.zone(side, bay, k);
    if (z < 0) continue;
    sum += p.zones[z].area * zone_values[z];
    area += p.zones[z].area;
  }
  return sum / area;
}

QuadPull quad_pull(const Model& m, const Covering& s, int q) {
  QuadPull out;
  out.yarn.setZero();
  double weight = 0;
  for (int c = 0; c < 4; ++c) {
    out.yarn += m.triangles[4 * q + c].weight * s.tension[4 * q + c].pull;
    weight += m.triangles[4 * q + c].weight;
  }
  out.yarn /= weight;
  out.principal = principal(out.yarn);
  const double cosine = std::cos(m.panel.quads[q].warp_angle), sine = std::sin(m.panel.quads[q].warp_angle);
  const double shear = out.yarn[2] / root2;
  out.span = cosine * cosine * out.yarn[0] + sine * sine * out.yarn[1] - 2 * sine * cosine * shear;
  out.chord = sine * sine * out.yarn[0] + cosine * cosine * out.yarn[1] + 2 * sine * cosine * shear;
  return out;
}

double tight_above(const Model& m) {
  // Judgement: about three times the rms error of pull that comparing orders may leave (usual_options), and a sixth or
  // seventh of what cloth has after its coolest usual stage.
  constexpr double tight_share = 1.0 / 15;
  const Cloth& c = m.the_case.cloth;
  const double along = std::pow(std::cos(c.warp_angle), 2), across = std::pow(std::sin(c.warp_angle), 2);
  double most = 0;
  for (const ShrinkPoint& p : c.curve) most = std::max(most, across * p.pull.warp + along * p.pull.fill);
  return most > 0 ? tight_share * most : std::numeric_limits<double>::infinity();
}

double side_mean(const Panel& p, const std::vector<double>& values, Side side) {
  double sum = 0, area = 0;
  for (std::size_t z = 0; z < p.zones.size(); ++z)
    if (p.zones[z].side == side) sum += p.zones[z].area * values[z], area += p.zones[z].area;
  return sum / area;
}

Readings read_off(const Model& m, const Covering& s) {
  Readings r;
  read_cloth(m, s, m.loose_pull, r);
  read_differences(m.panel, r);
  read_unevenness(m.panel, r);
  read_stress(m, s, r);
  read_bows(m, s, r);
  r.pocket_closing = pocket_closing(m, s);
  read_twist(m, s, r);
  read_sliding(m, s, tight_above(m), r);
  r.sag = read_sag(m, s);
  return r;
}

}  // namespace evenpull::inline solver
