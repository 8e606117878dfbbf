// Random cloths for property tests: no two yarns alike, each shrinking when it likes. All invented.
#pragma once

#include "solver/statement/case.hpp"
#include "tests/solver/chance.hpp"
#include "tests/support/sample_case.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenpull::check {

namespace random_cloth_detail {

// How far the two yarns have come at each of three temperatures; now and then one has not begun.
inline void shrink_by(Chance& chance, ShrinkPoint& p, const ShrinkPoint& before, double share, bool warp_late,
                      bool fill_late) {
  const auto one = [&](double shrunk, bool late) {
    return late ? shrunk : std::max(shrunk, share * chance.between(0.04, 0.12));
  };
  p.free_shrink = {one(before.free_shrink.warp, warp_late), one(before.free_shrink.fill, fill_late)};
}

}  // namespace random_cloth_detail

/// Stiffness, looseness, curve and angle at random; `number` names the cloth.
inline Cloth random_cloth(unsigned number) {
  Chance chance(7000 + number);
  Cloth c = sample::cloth();
  c.stiffness = {chance.between(60e3, 250e3), chance.between(60e3, 250e3)};
  // Both ratios stay within what woven cloth has.
  c.poisson = chance.between(0.05, 0.35) * std::min(1.0, std::sqrt(c.stiffness.warp / c.stiffness.fill));
  c.shear = chance.between(1e3, 10e3);
  c.looseness = {chance.between(0, 0.02), chance.between(0, 0.02)};
  c.warp_angle = chance.between(-1.5707963267948966, 0);
  c.half_time = chance.between(0.1, 1);
  c.activation = chance.between(0, 60e3);
  const double shares[] = {0.5, 0.75, 1};
  // One cloth in three has a yarn that has not begun at the first measured temperature.
  const unsigned late = number % 6;
  for (std::size_t i = 1; i < c.curve.size(); ++i) {
    ShrinkPoint& p = c.curve[i];
    random_cloth_detail::shrink_by(chance, p, c.curve[i - 1], shares[i - 1], i == 1 && late == 1, i == 1 && late == 4);
    // Pull well below what the free shrink takes up.
    const auto pull = [&](double free, double stiffness) {
      return free > 0 ? std::min(0.3 * free * stiffness, chance.between(150, 900)) : 0.0;
    };
    p.pull = {pull(p.free_shrink.warp, c.stiffness.warp), pull(p.free_shrink.fill, c.stiffness.fill)};
  }
  return c;
}

/// The same cloth with the names of its yarns exchanged, turned by a right angle: nothing about it has changed.
inline Cloth renamed(Cloth c) {
  c.poisson *= c.stiffness.fill / c.stiffness.warp;  // nu_fw / E_f = nu_wf / E_w
  const auto exchange = [](Yarns& y) { std::swap(y.warp, y.fill); };
  exchange(c.stiffness), exchange(c.looseness);
  for (ShrinkPoint& p : c.curve) exchange(p.free_shrink), exchange(p.pull);
  c.warp_angle += 1.5707963267948966;
  return c;
}

}  // namespace evenpull::check
