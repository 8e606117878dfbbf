#include "solver/sound/free_field.hpp"

#include <cmath>

namespace evenpull::inline solver {
namespace {

// A field counts as that of a bay if its middle is the bay's, but for this share of its width: there the weight stands.
constexpr double off_middle = 0.05;

}  // namespace

std::optional<FreeField> free_field(const Panel& p, Side side, int bay) {
  const int from = p.rib_columns[p.carried_from(bay)], to = p.rib_columns[p.carried_to(bay)];
  const int middle = (p.rib_columns[bay] + p.rib_columns[bay + 1]) / 2;
  const auto y = [&](int column) { return p.nodes[p.node(side, 0, column)].placed.y(); };
  const double own = 0.5 * (y(p.rib_columns[bay]) + y(p.rib_columns[bay + 1]));
  if (std::abs(0.5 * (y(from) + y(to)) - own) > off_middle * (y(to) - y(from))) return {};
  int first = -1, last = -1, start = 0;
  for (int row = 1; row <= p.last_row(bay); ++row) {
    const ClothNode& n = p.nodes[p.node(side, row, middle)];
    if (n.tie == Tie::none && !n.absent && row < p.last_row(bay)) continue;
    const bool cloth = !n.absent && !p.nodes[p.node(side, row - 1, middle)].absent;
    if (cloth && row - start > last - first) first = start, last = row;
    start = row;
  }
  if (first < 0 || last - first < 2 || to - from < 2) return {};
  const auto at = [&](int row, int column) { return p.nodes[p.node(side, row, column)].placed; };
  FreeField f{side, bay, first, last, from, to, 0, 0, {}};
  f.chordwise = (at(last, middle) - at(first, middle)).norm();
  f.spanwise = (at((first + last) / 2, to) - at((first + last) / 2, from)).norm();
  for (std::size_t i = 0; i < p.quads.size(); ++i) {
    const Quad& q = p.quads[i];
    if (q.side == side && q.column >= from && q.column < to && q.row >= first && q.row < last)
      f.quads.push_back(static_cast<int>(i));
  }
  return f;
}

}  // namespace evenpull::inline solver
