#include "solver/readings/member_pull.hpp"

#include "solver/equilibrium/neighbour_bay.hpp"

namespace evenpull::inline solver {
namespace {

std::vector<Eigen::Vector3d> force_on_joints(const Model& m, const Covering& s) {
  std::vector<Eigen::Vector3d> force(m.panel.joints.size(), Eigen::Vector3d::Zero());
  for (std::size_t i = 0; i < m.panel.nodes.size(); ++i) {
    const ClothNode& n = m.panel.nodes[i];
    if (n.tie != Tie::none && n.joint >= 0) force[n.joint] -= s.nodal_force[i];
  }
  return force;
}

std::vector<int> members_at_joints(const Panel& p) {
  std::vector<int> count(p.joints.size(), 0);
  for (const FrameMember& f : p.members)
    if (f.role != MemberRole::batten)  // its joints are those of the member that it lies along
      for (int j : f.joints) ++count[j];
  return count;
}

// Values at the joints known, straight lines between them and level beyond; none known: zero.
void fill_gaps(std::vector<Eigen::Vector3d>& value, const std::vector<bool>& known, const std::vector<double>& at) {
  const int n = static_cast<int>(value.size());
  int before = -1;
  for (int k = 0; k < n; ++k) {
    if (known[k]) {
      before = k;
      continue;
    }
    int after = k + 1;
    while (after < n && !known[after]) ++after;
    if (before >= 0 && after < n)
      value[k] = value[before] + (at[k] - at[before]) / (at[after] - at[before]) * (value[after] - value[before]);
    else if (before >= 0 || after < n) value[k] = value[before >= 0 ? before : after];
    else value[k].setZero();
  }
}

}  // namespace

std::vector<BeamLoad> pull_on_beams(const Model& m, const Covering& s) {
  const Panel& p = m.panel;
  const std::vector<Eigen::Vector3d> force = force_on_joints(m, s);
  const std::vector<int> shared = members_at_joints(p);
  std::vector<BeamLoad> out(p.beams.size());
  for (const FrameMember& f : p.members) {
    if (f.role == MemberRole::batten) continue;  // the cloth pulls on the member beside it
    const std::size_t n = f.joints.size();
    std::vector<double> at(n, 0);
    for (std::size_t k = 1; k < n; ++k)
      at[k] = at[k - 1] + (p.joints[f.joints[k]].position - p.joints[f.joints[k - 1]].position).norm();
    std::vector<Eigen::Vector3d> pull(n, Eigen::Vector3d::Zero());
    std::vector<bool> known(n, false);
    for (std::size_t k = 1; k + 1 < n; ++k) {
      known[k] = shared[f.joints[k]] == 1;
      pull[k] = force[f.joints[k]] / (0.5 * (at[k + 1] - at[k - 1]));
    }
    fill_gaps(pull, known, at);
    for (std::size_t k = 0; k + 1 < n; ++k) {
      BeamLoad& load = out[f.beams[k]] = {pull[k], pull[k + 1]};
      // In a mirror the cloth beyond pulls as hard the other way.
      if (in_mirror(m.the_case, p, p.beams[f.beams[k]])) load.from.y() = load.to.y() = 0;
    }
  }
  return out;
}

}  // namespace evenpull::inline solver
