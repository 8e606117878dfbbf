#include "solver/equilibrium/model.hpp"

#include "solver/cloth/shrink.hpp"
#include "solver/equilibrium/neighbour_bay.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenpull::inline solver {
namespace {

Corners placed_corners(const Panel& p, const Quad& q, const int corner[3]) {
  Corners x;
  for (int i = 0; i < 3; ++i) x.row(i) = p.nodes[q.nodes[corner[i]]].placed.transpose();
  return x;
}

QuadShape shape_of(const Quad& q, const Triangle* four) {
  QuadShape s;
  s.nodes = q.nodes;
  for (int t = 0; t < 4; ++t) {
    s.weight[t] = four[t].weight;
    for (int i = 0; i < 2; ++i) {
      s.along_warp[i][t] = four[t].gradient(1 + i, 0);
      s.along_fill[i][t] = four[t].gradient(1 + i, 1);
    }
  }
  return s;
}

// Judgement: cloth that pulls less than this share of the most that it can is loose to a hand and carries nothing.
constexpr double loose_share = 1.0 / 90;
// For cloth whose pull is not stated, as in checks that never iron it [N/m]: that of 92 g/m^2 (docs/data.md).
constexpr double usual_most_pull = 900;

double most_pull(const Cloth& c) {
  double most = 0;
  for (const ShrinkPoint& p : c.curve) most = std::max({most, p.pull.warp, p.pull.fill});
  return most > 0 ? most : usual_most_pull;
}

}  // namespace

Model::Model(const Case& c, const MeshOptions& options) : the_case(c), panel(build_panel(c, options)) {
  held[0] = held_unknowns(panel, c.while_ironed);
  held[1] = held_unknowns(panel, c.in_use);
  springs[0] = support_springs(panel, c.while_ironed);
  springs[1] = support_springs(panel, c.in_use);
  build(beam_ends(c, panel));
}

Model::Model(const Case& c, Panel mesh, std::array<std::vector<int>, 2> unknowns_held)
    : the_case(c), panel(std::move(mesh)), held(std::move(unknowns_held)) {
  build({});
}

void Model::build(const std::vector<BeamEnds>& ends) {
  const Case& c = the_case;
  unknowns = number_unknowns(panel);
  if (c.cloth_goes_on_inboard || c.cloth_goes_on_outboard)
    for (std::vector<int>& h : held) hold_mirrors(c, panel, unknowns, h);
  compliance = evenpull::compliance(c.cloth.stiffness.warp, c.cloth.stiffness.fill, c.cloth.poisson, c.cloth.shear);
  softest = smallest_eigenvalue(compliance);
  loose_pull = loose_share * most_pull(c.cloth);
  looseness = Mandel(looseness_strain(c.cloth.looseness.warp), looseness_strain(c.cloth.looseness.fill), 0);
  for (const Quad& q : panel.quads) {
    cloth_area += q.area;
    for (const auto& corner : triangle_corners)
      triangles.push_back(make_triangle(placed_corners(panel, q, corner), Eigen::Vector3d::UnitY(), q.warp_angle, 0.5));
    shapes.push_back(shape_of(q, &triangles[triangles.size() - 4]));
  }
  for (std::size_t i = 0; i < panel.beams.size(); ++i) {
    const Beam& b = panel.beams[i];
    comes_out.push_back(panel.members[b.member].comes_out);
    const Material& m = c.materials[panel.members[b.member].material];
    BeamEnds end = ends.empty() ? BeamEnds{} : ends[i];
    if (b.hinge_from) end.from = hinge_end;
    if (b.hinge_to) end.to = hinge_end;
    beams.push_back({panel.joints[b.from].position, panel.joints[b.to].position, b.up, b.section, m.youngs_modulus,
                     m.shear_modulus, end.from, end.to, end.twist_gain});
    beam_elastic.push_back(beam_stiffness(beams.back()));
    beam_geometric.push_back(beam_geometric_stiffness(beams.back(), 1));
    if (in_mirror(c, panel, b)) beam_elastic.back() += plane_stiffness(c, panel, b);
  }
  wires = find_wires(c, panel);
  for (const Wire& w : wires) {
    beam_elastic[w.beam] = wire_stiffness(w);
    beam_geometric[w.beam] = string_stiffness(beams[w.beam]);
  }
  rig(*this, wires);
  for (const FrameMember& m : panel.members) {
    const Material& material = c.materials[m.material];
    allowable.push_back(material.strength *
                        (material.kind == Strength::yield ? c.limits.yield_share : c.limits.rupture_share));
  }
  flats = flats_of_beams(c, panel);
  build_pattern();
}

void Model::build_pattern() {
  std::vector<std::vector<int>> rows(unknowns.count);  // of each column, row >= column
  const auto couple = [&](int a, int b) { rows[std::min(a, b)].push_back(std::max(a, b)); };
  for (const Quad& q : panel.quads)
    for (int a = 0; a < 4; ++a)
      for (int b = 0; b <= a; ++b) {
        const NodeMap &ma = unknowns.nodes[q.nodes[a]], &mb = unknowns.nodes[q.nodes[b]];
        for (int i = 0; i < ma.count; ++i)
          for (int j = 0; j < mb.count; ++j) couple(ma.index[i], mb.index[j]);
      }
  const auto beam_unknown = [&](const Beam& b, int k) { return k < 6 ? 6 * b.from + k : 6 * b.to + k - 6; };
  for (const Beam& b : panel.beams)
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j <= i; ++j) couple(beam_unknown(b, i), beam_unknown(b, j));
  for (int i = 0; i < unknowns.count; ++i) couple(i, i);

  pattern.resize(unknowns.count, unknowns.count);
  std::vector<int> sizes(unknowns.count);
  for (int j = 0; j < unknowns.count; ++j) {
    std::sort(rows[j].begin(), rows[j].end());
    rows[j].erase(std::unique(rows[j].begin(), rows[j].end()), rows[j].end());
    sizes[j] = static_cast<int>(rows[j].size());
  }
  pattern.reserve(sizes);
  for (int j = 0; j < unknowns.count; ++j)
    for (int i : rows[j]) pattern.insert(i, j) = 0;
  pattern.makeCompressed();
  analysis = LinearSolver::study(pattern);

  tangent = TangentMap(panel, unknowns, pattern);
  for (const Beam& b : panel.beams) {
    std::array<int, 78> at{};
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j <= i; ++j) at[lower_index(i, j)] = position_of(pattern, beam_unknown(b, i), beam_unknown(b, j));
    beam_positions.push_back(at);
  }
  for (int i = 0; i < unknowns.count; ++i) diagonal.push_back(position_of(pattern, i, i));
  for (const SlidingPoint& s : unknowns.sliding)
    sliding_cross.push_back(s.unknowns == 2 ? position_of(pattern, s.first_unknown, s.first_unknown + 1) : -1);
  for (int h = 0; h < 2; ++h) {
    std::vector<char> is_held(unknowns.count, 0);
    for (int i : held[h]) is_held[i] = 1;
    for (int j = 0; j < unknowns.count; ++j)
      for (int k = pattern.outerIndexPtr()[j]; k < pattern.outerIndexPtr()[j + 1]; ++k)
        if (is_held[j] || is_held[pattern.innerIndexPtr()[k]]) held_positions[h].push_back(k);
  }
  if (!the_case.attachments.empty()) find_sliding_positions();
}

void Model::find_sliding_positions() {
  std::vector<int> point_of(unknowns.count, -1);
  for (std::size_t i = 0; i < unknowns.sliding.size(); ++i)
    for (int k = 0; k < unknowns.sliding[i].unknowns; ++k)
      point_of[unknowns.sliding[i].first_unknown + k] = static_cast<int>(i);
  sliding_positions.resize(unknowns.sliding.size());
  for (int j = 0; j < unknowns.count; ++j)
    for (int k = pattern.outerIndexPtr()[j]; k < pattern.outerIndexPtr()[j + 1]; ++k) {
      const int row = point_of[pattern.innerIndexPtr()[k]], column = point_of[j];
      if (row >= 0) sliding_positions[row].push_back(k);
      if (column >= 0 && column != row) sliding_positions[column].push_back(k);
    }
}

}  // namespace evenpull::inline solver
