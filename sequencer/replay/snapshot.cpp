#include "sequencer/replay/snapshot.hpp"

namespace evenpull::inline sequencer {

Snapshot take_snapshot(const Model& m, const Covering& s, const Readings& r, int step) {
  Snapshot out;
  out.step = step;
  const auto push = [](std::vector<float>& to, double v) { to.push_back(static_cast<float>(v)); };
  for (const NodeMap& n : m.unknowns.nodes) {
    const Eigen::Vector3d u = displacement(n, s.unknowns);
    for (int k = 0; k < 3; ++k) push(out.displacement, u[k]);
  }
  for (double sag : r.sag.inward) push(out.sag, sag);
  const double loose = m.loose_pull;
  for (int q = 0; q < static_cast<int>(m.panel.quads.size()); ++q) {
    const QuadPull pull = quad_pull(m, s, q);
    push(out.pull_warp, pull.yarn[0]);
    push(out.pull_fill, pull.yarn[1]);
    push(out.pull_major, pull.principal.major);
    push(out.pull_minor, pull.principal.minor);
    push(out.pull_chord, pull.chord);
    push(out.pull_span, pull.span);
    push(out.major_angle, pull.principal.angle + m.panel.quads[q].warp_angle);
    out.state.push_back(pull.principal.major < loose ? 0 : pull.principal.minor < loose ? 1 : 2);
    double warp = 0, fill = 0;
    for (int t = 4 * q; t < 4 * q + 4; ++t) warp += 0.25 * s.shrink[t][0], fill += 0.25 * s.shrink[t][1];
    push(out.shrink_warp, warp);
    push(out.shrink_fill, fill);
  }
  out.edge_slip.assign(m.panel.columns, 0);
  for (const SlidingPoint& p : m.unknowns.sliding)
    if (p.kind == SlidingPoint::Kind::wrapped)
      out.edge_slip[p.column] = static_cast<float>(s.unknowns[p.first_unknown]);
  for (int i = 0; i < 6 * static_cast<int>(m.panel.joints.size()); ++i) push(out.joint_displacement, s.unknowns[i]);
  for (double use : r.beam_use) push(out.beam_use, use);
  out.twist = r.twist, out.tip_turn = r.tip_turn;
  out.difference_chord = r.difference_chord.value, out.difference_span = r.difference_span.value;
  return out;
}

}  // namespace evenpull::inline sequencer
