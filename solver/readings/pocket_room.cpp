#include "solver/readings/pocket_room.hpp"

#include <algorithm>
#include <cstddef>

namespace evenpull::inline solver {
namespace {

struct Closing {
  double most = 0;  // m
  int joint = -1;
  void take(double closing, int at) {
    if (joint < 0 || closing > most) most = closing, joint = at;
  }
};

Closing closing_of(const Panel& p, const PanelPocket& pocket, const Covering& s) {
  const auto moved = [&](int joint, int along) { return s.unknowns[6 * joint + along]; };
  Closing c;
  const std::size_t pairs = std::min(pocket.sides[0].size(), pocket.sides[1].size());
  for (std::size_t k = 0; k < pairs; ++k) {
    const int inboard = pocket.sides[0][k], outboard = pocket.sides[1][k];
    c.take(0.5 * (moved(inboard, 1) - moved(outboard, 1)), inboard);
  }
  const int first = pocket.front.front(), last = pocket.front.back();
  const double from = p.joints[first].position.y(), to = p.joints[last].position.y();
  for (const int joint : pocket.front) {
    const double share = (p.joints[joint].position.y() - from) / (to - from);
    c.take(moved(joint, 0) - (1 - share) * moved(first, 0) - share * moved(last, 0), joint);
  }
  return c;
}

}  // namespace

WorstBow pocket_closing(const Model& m, const Covering& s) {
  const Panel& p = m.panel;
  WorstBow worst;
  for (std::size_t k = 0; k < p.pockets.size(); ++k) {
    const Closing c = closing_of(p, p.pockets[k], s);
    WorstBow w;
    w.value = std::max(0.0, c.most);  // a pocket that opens loses nothing
    w.joint = c.joint;
    w.member = p.pockets[k].member;
    w.allowed = m.the_case.pockets[k].gap;
    w.lasting = m.the_case.materials[static_cast<std::size_t>(p.members[w.member].material)].lasting_movement;
    const bool limited = w.allowed > 0, was_limited = worst.allowed > 0;
    if (worst.member < 0 || (limited && !was_limited) ||
        (limited == was_limited && (limited ? w.use() > worst.use() : w.value > worst.value)))
      worst = w;
  }
  return worst;
}

}  // namespace evenpull::inline solver
