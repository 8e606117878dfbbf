// An invented panel of any size as superposed influences: two sides of n/2 bays; a zone pulls its neighbours on its side
// and, round the edge, the zone opposite; the frame is loaded by each side at the ribs between bays.
#pragma once

#include "sequencer/search/influence.hpp"

#include <cmath>

namespace evenpull {

inline InfluenceModel line_panel(int n) {
  const int bays = n / 2;
  Influence i;
  i.layout.uses = bays + 1;
  i.layout.bays = bays;
  i.start = Eigen::VectorXd::Zero(i.layout.size());
  i.effect = Eigen::MatrixXd::Zero(i.layout.size(), 2 * bays);
  i.push = Eigen::MatrixXd::Zero(2 * bays, 2 * bays);
  i.shrink = i.pull = Eigen::VectorXd::Zero(2 * bays);
  i.free_shrink = i.give = Eigen::VectorXd::Ones(2 * bays);
  for (int c = 0; c < 2 * bays; ++c) {
    const int side = c / bays, bay = c % bays;
    const double size = 1 + 0.1 * std::sin(1.7 * c + 0.3);  // no two zones are quite alike
    // A rib feels the bays beside it: one-sided pull until both are worked, and a little of both sides at the end.
    for (int rib = bay; rib <= bay + 1; ++rib) {
      const bool end = rib == 0 || rib == bays;
      i.effect(rib, c) = (side == 0 ? 1.0 : -0.6) * (rib == bay ? 1.0 : -0.8) * size * (end ? 1.2 : 0.5) + 0.3 * size;
    }
    i.effect(i.layout.first_bay() + side * bays + bay, c) = 300 * size;
    i.effect(i.layout.first_bay() + (2 + side) * bays + bay, c) = 200 * size;
    for (int r = 0; r < 2 * bays; ++r) {
      const int apart = std::abs(r % bays - bay);
      if (r == c) i.push(r, c) = 0.8 * size;
      else if (r / bays == side) i.push(r, c) = 0.25 * size / (1.0 + apart * apart);
      else if (apart == 0) i.push(r, c) = 0.2 * size;
    }
    i.things.push_back({{c}});
  }
  Ways w{Eigen::MatrixXd::Zero(2 * bays, 2 * bays), Eigen::MatrixXi::Zero(2 * bays, 2 * bays)};
  for (int a = 0; a < 2 * bays; ++a)
    for (int b = 0; b < 2 * bays; ++b) {
      w.travel(a, b) = 0.3 * std::abs(a % bays - b % bays);
      w.turn_over(a, b) = a / bays != b / bays;
    }
  return InfluenceModel(std::move(i), std::move(w), {1});
}

}  // namespace evenpull
