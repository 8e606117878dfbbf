#include "sequencer/replay/buckling_mode.hpp"

#include "sequencer/replay/judge.hpp"

namespace evenpull::inline sequencer {
namespace {

// The joint that moves most; of the members that meet there the one that is bent most beside it.
Worst most_moved(const Model& m, const Eigen::VectorXd& mode) {
  Worst w;
  for (int j = 0; j < static_cast<int>(m.panel.joints.size()); ++j) {
    const double move = mode.segment<3>(6 * j).norm();
    if (w.joint < 0 || move > w.value) w.value = move, w.joint = j;
  }
  std::vector<double> work(m.panel.members.size(), 0);
  for (std::size_t b = 0; b < m.beams.size(); ++b) {
    const Beam& beam = m.panel.beams[b];
    if (beam.from != w.joint && beam.to != w.joint) continue;
    BeamVector u;
    u << mode.segment<6>(6 * beam.from), mode.segment<6>(6 * beam.to);
    work[beam.member] += u.dot(m.beam_elastic[b] * u);
    if (w.member < 0 || work[beam.member] > work[w.member]) w.member = beam.member;
  }
  return w;
}

}  // namespace

std::optional<BucklingMode> buckling_mode(const Model& m, const Buckling& b, Moment when) {
  if (b.mode.size() == 0) return {};
  BucklingMode out;
  out.factor = b.factor;
  out.when = when;
  out.where = place_of(m.panel, most_moved(m, b.mode));
  out.residual = b.residual;
  out.least_proven = b.least_proven;
  for (int i = 0; i < 6 * static_cast<int>(m.panel.joints.size()); ++i)
    out.joint.push_back(static_cast<float>(b.mode[i]));
  for (const NodeMap& n : m.unknowns.nodes) {
    const Eigen::Vector3d u = displacement(n, b.mode);
    for (int k = 0; k < 3; ++k) out.node.push_back(static_cast<float>(u[k]));
  }
  return out;
}

}  // namespace evenpull::inline sequencer
