#include "solver/model.hpp"

#include "solver/shrink.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull {
namespace {

Corners placed_corners(const Panel& p, const Quad& q, const int corner[3]) {
  Corners x;
  for (int i = 0; i < 3; ++i) x.row(i) = p.nodes[q.nodes[corner[i]]].placed.transpose();
  return x;
}

int position_of(const Sparse& a, int row, int column) {
  if (row < column) std::swap(row, column);
  const int* begin = a.innerIndexPtr() + a.outerIndexPtr()[column];
  const int* end = a.innerIndexPtr() + a.outerIndexPtr()[column + 1];
  const int* at = std::lower_bound(begin, end, row);
  assert(at != end && *at == row);
  return static_cast<int>(at - a.innerIndexPtr());
}

}  // namespace

Model::Model(const Case& c, const MeshWish& wish)
    : the_case(c), panel(build_panel(c, wish)), unknowns(number_unknowns(panel)) {
  compliance = evenpull::compliance(c.cloth.stiffness.warp, c.cloth.stiffness.fill, c.cloth.poisson, c.cloth.shear);
  softest = smallest_eigenvalue(compliance);
  looseness = Mandel(looseness_strain(c.cloth.looseness.warp), looseness_strain(c.cloth.looseness.fill), 0);
  for (const Quad& q : panel.quads) {
    cloth_area += q.area;
    for (const auto& corner : triangle_corners)
      triangles.push_back(make_triangle(placed_corners(panel, q, corner), Eigen::Vector3d::UnitY(), q.warp_angle, 0.5));
  }
  for (const Beam& b : panel.beams) {
    const Material& m = c.materials[panel.members[b.member].material];
    beams.push_back({panel.joints[b.from].position, panel.joints[b.to].position, b.up, b.section, m.youngs_modulus,
                     m.shear_modulus, b.hinge_from, b.hinge_to});
    beam_elastic.push_back(beam_stiffness(beams.back()));
  }
  for (const FrameMember& m : panel.members) {
    const Material& material = c.materials[m.material];
    allowable.push_back(material.strength *
                        (material.kind == Strength::yield ? c.limits.yield_share : c.limits.rupture_share));
  }
  held[0] = held_unknowns(panel, c.while_ironed);
  held[1] = held_unknowns(panel, c.in_use);
  build_pattern();
}

bool Model::free_quad(int q) const {
  const auto& n = panel.quads[q].nodes;
  return std::all_of(n.begin(), n.end(), [&](int i) { return panel.nodes[i].tie == Tie::none; });
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

  for (int q = 0; q < static_cast<int>(panel.quads.size()); ++q) {
    std::vector<int> at;
    const auto& n = panel.quads[q].nodes;
    if (free_quad(q)) {
      for (int r = 0; r < 12; ++r)
        for (int s = 0; s <= r; ++s)
          at.push_back(position_of(pattern, unknowns.nodes[n[r / 3]].index[r % 3], unknowns.nodes[n[s / 3]].index[s % 3]));
    } else {
      for (int a = 0; a < 4; ++a)
        for (int b = 0; b <= a; ++b) {
          const NodeMap &ma = unknowns.nodes[n[a]], &mb = unknowns.nodes[n[b]];
          for (int i = 0; i < ma.count; ++i)
            for (int j = 0; j < mb.count; ++j) at.push_back(position_of(pattern, ma.index[i], mb.index[j]));
        }
    }
    quad_positions.push_back(std::move(at));
  }
  for (const Beam& b : panel.beams) {
    std::array<int, 78> at{};
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j <= i; ++j)
        at[lower_index(i, j)] = position_of(pattern, beam_unknown(b, i), beam_unknown(b, j));
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
}

}  // namespace evenpull
