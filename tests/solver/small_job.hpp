// Small jobs for tests of whole steps: a coarse panel with one zone a bay and side, orders, passes.
#pragma once

#include "solver/ironing/ironing.hpp"
#include "solver/readings/readings.hpp"
#include "tests/support/held_pass.hpp"
#include "tests/support/sample_case.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace evenpull::check {

inline double true_temperature(double f) { return (f + 459.67) / 1.8; }

/// An iron that keeps a whole bay hot at once: one zone a bay and side, so that few steps make a pass.
inline Case one_zone_a_bay(Case c) {
  c.iron = {1.0, 0.3, 0, 6, 0};
  return c;
}

inline MeshOptions coarse(int nodes = 200) {
  MeshOptions w;
  w.target_nodes = nodes;
  return w;
}

/// Every length of the case times `by`: the same panel, seen from nearer or farther.
inline void multiply_lengths(Case& c, double by) {
  for (auto* edge : {&c.outline.leading_edge, &c.outline.trailing_edge})
    for (PlanPoint& p : *edge) p.x *= by, p.y *= by;
  for (auto* set : {&c.while_ironed, &c.in_use})
    for (Support& s : *set) s.station *= by;
  const auto scale = [&](SectionShape& s) {
    for (double* length : {&s.outside_diameter, &s.wall, &s.width, &s.height}) *length *= by;
  };
  for (SpanMember& m : c.span_members) scale(m.make.shape);
  for (Rib& r : c.ribs) r.station *= by, scale(r.make.shape);
  c.iron.sole_length *= by, c.iron.sole_width *= by;
}

/// A model with its ironing; not copied, since the ironing refers to the model.
struct Job {
  Model model;
  Ironing ironing;
  explicit Job(const Case& c, int nodes = 200) : model(c, coarse(nodes)), ironing(model) {}
  Job(const Case& c, int nodes, const SolveOptions& a) : model(c, coarse(nodes)), ironing(model, a) {}
  Job(const Job&) = delete;
  Job& operator=(const Job&) = delete;

  Readings read(const Covering& s) const { return read_off(model, s); }
  const Panel& panel() const { return model.panel; }
};

/// All zones of the top from the root to the tip, then all of the bottom.
inline std::vector<int> one_side_first(const Panel& p) {
  std::vector<int> order;
  for (std::size_t z = 0; z < p.zones.size(); ++z) order.push_back(static_cast<int>(z));
  return order;
}

/// Root to tip, both sides of each bay before the next one; the side that begins changes from bay to bay.
inline std::vector<int> alternating(const Panel& p) {
  std::vector<int> order;
  for (int b = 0; b < p.bays; ++b)
    for (Side side : {b % 2 ? Side::bottom : Side::top, b % 2 ? Side::top : Side::bottom})
      for (int k = 0; k < p.strips; ++k) order.push_back(p.zone(side, b, k));
  return order;
}

/// Both sides of each bay, from the middle bays outwards.
inline std::vector<int> centre_out(const Panel& p) {
  std::vector<int> bays(static_cast<std::size_t>(p.bays)), order;
  for (int b = 0; b < p.bays; ++b) bays[static_cast<std::size_t>(b)] = b;
  const auto from_middle = [&](int b) { return std::abs(2 * b - p.bays + 1); };
  std::stable_sort(bays.begin(), bays.end(), [&](int a, int b) { return from_middle(a) < from_middle(b); });
  for (std::size_t i = 0; i < bays.size(); ++i)
    for (Side side : {i % 2 ? Side::bottom : Side::top, i % 2 ? Side::top : Side::bottom})
      for (int k = 0; k < p.strips; ++k) order.push_back(p.zone(side, bays[i], k));
  return order;
}

/// Worst readings on the way.
struct Way {
  double use = 0, twist = 0, slip = 0, difference_span = 0;
};

/// Works zones in order; false when a step ended in buckling.
inline bool work(Job& j, Covering& s, const std::vector<int>& order, double fahrenheit, double dose,
                 Way* way = nullptr) {
  const PassHeat heat = held_pass(j.model, true_temperature(fahrenheit), dose);
  for (int z : order) {
    if (j.ironing.iron(s, z, heat, j.panel().zones[z].label).outcome != Outcome::settled) return false;
    if (!way) continue;
    const Readings r = j.read(s);
    way->use = std::max(way->use, r.stress_use.value);
    way->twist = std::max(way->twist, r.twist);
    way->slip = std::max(way->slip, std::abs(r.slip.value));
    way->difference_span = std::max(way->difference_span, std::abs(r.difference_span.value));
  }
  return true;
}

/// For tests of what is mirrored or unique: far below the accuracy of a plan.
inline SolveOptions tight() {
  SolveOptions a;
  a.force_tolerance = 1e-7;
  a.tension_tolerance = 1e-4;
  a.friction_tolerance = 1e-6;
  return a;
}

/// Load lines of one zone, as Ironing draws them.
inline PanelLoadLines lines_of(const Model& m, const Covering& s, int zone, double fahrenheit, double dose) {
  PanelLoadLines lines(m.triangles.size());
  const PassLines pass = held_pass(m, true_temperature(fahrenheit), dose).open.lines;
  for (int q : m.panel.zones[zone].quads)
    for (int t = 4 * q; t < 4 * q + 4; ++t)
      for (int d = 0; d < 2; ++d) lines[t][d] = load_line(pass[d], s.shrink[t][d], m.the_case.cloth.creep_share);
  return lines;
}

/// Largest difference of any component of the pull between two states [N/m].
inline double pull_apart(const Covering& a, const Covering& b) {
  double worst = 0;
  for (std::size_t t = 0; t < a.tension.size(); ++t)
    worst = std::max(worst, (a.tension[t].pull - b.tension[t].pull).cwiseAbs().maxCoeff());
  return worst;
}

}  // namespace evenpull::check
