// Panels drawn at random from what ordinary cases state: none of them is a reason to give no plan. All invented.
#pragma once

#include "sequencer/plan/plan.hpp"
#include "tests/solver/chance.hpp"
#include "tests/support/sample_case.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace evenpull::check {

/// Ranges of what is drawn; each with its natural spread (lengths and stiffnesses by their logarithm).
struct OrdinaryCase {
  Case the_case;
  std::string words;  ///< what was drawn, to find it again
};

inline double log_between(Chance& chance, double low, double high) {
  return low * std::pow(high / low, chance.between(0, 1));
}

inline int one_of(Chance& chance, int count) { return std::min(count - 1, static_cast<int>(chance.between(0, count))); }

/// Members grow with the panel, as they do on any aircraft.
inline void scale_sections(Case& c, double by) {
  const auto scale = [&](SectionShape& s) {
    for (double* length : {&s.outside_diameter, &s.wall, &s.width, &s.height}) *length *= by;
  };
  for (SpanMember& m : c.span_members) scale(m.make.shape);
  for (Rib& r : c.ribs) scale(r.make.shape);
}

inline Cloth ordinary_cloth(Chance& chance) {
  Cloth c = sample::cloth();
  c.stiffness = {log_between(chance, 40e3, 400e3), log_between(chance, 40e3, 400e3)};
  const double mean = std::sqrt(c.stiffness.warp * c.stiffness.fill);
  c.shear = mean * log_between(chance, 0.005, 0.1);
  c.poisson = chance.between(0.05, 0.25);
  c.looseness = {chance.between(0, 0.05), chance.between(0, 0.05)};
  c.warp_angle = one_of(chance, 3) == 0 ? chance.between(-0.8, 0.8) : 0;
  // Pull goes with stiffness, half of it to nearly twice (docs/data.md).
  const double more = mean / 100e3 * log_between(chance, 0.5, 1.8);
  for (ShrinkPoint& p : c.curve) p.pull = {p.pull.warp * more, p.pull.fill * more};
  return c;
}

inline OrdinaryCase ordinary_case(unsigned seed) {
  Chance chance(seed);
  const int bays = 2 + one_of(chance, 2);
  const double chord = log_between(chance, 0.05, 1.5), bay = std::clamp(chord * log_between(chance, 0.5, 2), 0.1, 0.5);
  const bool light = one_of(chance, 2) == 0;
  Case c = light ? sample::light_rudder(bays) : sample::aileron(bays, bays * bay, chord);
  const Case lengths = sample::aileron(bays, bays * bay, chord);
  c.outline = lengths.outline;
  for (int i = 0; i <= bays; ++i) c.ribs[i].station = lengths.ribs[i].station;
  for (auto* set : {&c.while_ironed, &c.in_use})
    for (Support& s : *set)
      if (s.station > 0) s.station = bays * bay;
  scale_sections(c, 1.5 * chord / 0.35);
  c.cloth = ordinary_cloth(chance);
  c.blanket.edge_friction = chance.between(0, 1.5);
  c.blanket.rib_friction = chance.between(0, 1.5);
  c.blanket.wrap_angle = chance.between(1.5, 3.5);
  const int kind = one_of(chance, 6);
  if (kind == 0) c.blanket.kind = BlanketKind::two_sheets;
  if (kind == 1) c.blanket.edge_glued = true;
  c.blanket.inner_ribs = static_cast<RibTie>(one_of(chance, 3));
  const int strips = 1 + one_of(chance, 2);
  c.iron.sole_width = chord / strips * 0.9;
  c.iron.sole_length = bay;
  c.iron.travel_speed = 0;
  c.stages.resize(1 + one_of(chance, 3));
  const std::vector<double> passes[3] = {{1}, {0.25, 1}, {1, 1, 1}};
  for (Stage& s : c.stages) s.doses = passes[one_of(chance, 3)];
  OrdinaryCase out;
  out.words = "seed " + std::to_string(seed) + (light ? " light" : " nose") + " chord " + std::to_string(chord) +
              " cloth " + std::to_string(c.cloth.stiffness.warp / 1e3) + " / " +
              std::to_string(c.cloth.stiffness.fill / 1e3) + " shear " + std::to_string(c.cloth.shear / 1e3) +
              " loose " + std::to_string(c.cloth.looseness.warp) + " / " + std::to_string(c.cloth.looseness.fill) +
              " mu " + std::to_string(c.blanket.edge_friction) + " / " + std::to_string(c.blanket.rib_friction) +
              " blanket " + std::to_string(kind) + " ribs " + std::to_string(static_cast<int>(c.blanket.inner_ribs)) +
              " pull " + std::to_string(c.cloth.curve[1].pull.warp);
  out.the_case = std::move(c);
  return out;
}

/// One order: root to tip, both sides of each bay, the same in every pass.
inline std::vector<Step> plain_order(const Case& c, const Panel& p) {
  std::vector<Step> order;
  for (int stage = 0; stage < static_cast<int>(c.stages.size()); ++stage)
    for (int pass = 1; pass <= static_cast<int>(c.stages[stage].doses.size()); ++pass)
      for (int b = 0; b < p.bays; ++b)
        for (Side side : {Side::top, Side::bottom})
          for (int k = 0; k < p.strips; ++k) {
            Step s;
            s.stage = stage;
            s.pass = pass;
            s.zone = p.zone(side, b, k);
            s.dose = c.stages[stage].doses[pass - 1];
            order.push_back(s);
          }
  return order;
}

}  // namespace evenpull::check
