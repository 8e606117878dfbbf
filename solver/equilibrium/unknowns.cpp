#include "solver/equilibrium/unknowns.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace evenpull::inline solver {
namespace {

void add(NodeMap& m, int index, const Eigen::Vector3d& column) {
  m.index[m.count] = index;
  m.column.col(m.count) = column;
  ++m.count;
}

// u_joint + theta x r
void add_joint(NodeMap& m, int joint, const Eigen::Vector3d& r) {
  for (int k = 0; k < 3; ++k) add(m, 6 * joint + k, Eigen::Vector3d::Unit(k));
  add(m, 6 * joint + 3, {0, -r.z(), r.y()});
  add(m, 6 * joint + 4, {r.z(), 0, -r.x()});
  add(m, 6 * joint + 5, {-r.y(), r.x(), 0});
}

// Of all pieces of a span member.
std::vector<int> joints_along(const Panel& p, int span_member) {
  std::vector<int> joints;
  for (const FrameMember& m : p.members)
    if (m.span_member == span_member) joints.insert(joints.end(), m.joints.begin(), m.joints.end());
  return joints;
}

}  // namespace

Unknowns number_unknowns(const Panel& p) {
  Unknowns u;
  u.count = 6 * static_cast<int>(p.joints.size());
  u.nodes.resize(p.nodes.size());
  std::vector<int> slip_of(p.columns, -1);
  for (std::size_t i = 0; i < p.nodes.size(); ++i) {
    const ClothNode& n = p.nodes[i];
    NodeMap& m = u.nodes[i];
    if (n.absent) continue;
    if (n.tie == Tie::none) {
      for (int k = 0; k < 3; ++k) add(m, u.count++, Eigen::Vector3d::Unit(k));
      continue;
    }
    add_joint(m, n.joint, n.offset);
    if (n.tie == Tie::bearing) {
      SlidingPoint s;
      s.kind = SlidingPoint::Kind::bearing;
      s.first_unknown = u.count;
      s.unknowns = 2;
      s.top_node = s.bottom_node = static_cast<int>(i);
      s.column = n.column;
      u.sliding.push_back(s);
      add(m, u.count++, n.along_chord);
      add(m, u.count++, n.along_span);
    } else if (n.tie == Tie::wrapped) {
      if (slip_of[n.column] < 0) {
        slip_of[n.column] = u.count++;
        SlidingPoint s;
        s.first_unknown = slip_of[n.column];
        s.top_node = p.node(Side::top, n.row, n.column);
        s.bottom_node = p.node(Side::bottom, n.row, n.column);
        s.column = n.column;
        u.sliding.push_back(s);
      }
      add(m, slip_of[n.column], n.side == Side::top ? -n.along_chord : n.along_chord);
    }
  }
  return u;
}

Eigen::Vector3d displacement(const NodeMap& m, const Eigen::VectorXd& d) {
  Eigen::Vector3d u = Eigen::Vector3d::Zero();
  for (int k = 0; k < m.count; ++k) u += d[m.index[k]] * m.column.col(k);
  return u;
}

namespace {

// visit(support, unknown, component) for each motion that each support holds.
template <class Visit>
void each_held(const Panel& p, const std::vector<Support>& supports, const Visit& visit) {
  for (const Support& s : supports) {
    const std::vector<int> joints = joints_along(p, s.member);
    int nearest = joints.front();
    const double target = s.station;
    for (int j : joints)
      if (std::abs(p.joints[j].position.y() - target) < std::abs(p.joints[nearest].position.y() - target) - 1e-9)
        nearest = j;
    for (int j : joints) {
      if (!s.whole_length && j != nearest) continue;
      for (int k = 0; k < 6; ++k)
        if (s.hold[k]) visit(s, 6 * j + k, k);
    }
  }
}

// What is said to give is what is held against moving; turning is held firmly.
bool gives(const Support& s, int component) { return s.give > 0 && component < 3; }

}  // namespace

std::vector<int> held_unknowns(const Panel& p, const std::vector<Support>& supports) {
  std::vector<int> held;
  each_held(p, supports, [&](const Support& s, int unknown, int component) {
    if (!gives(s, component)) held.push_back(unknown);
  });
  std::sort(held.begin(), held.end());
  held.erase(std::unique(held.begin(), held.end()), held.end());
  return held;
}

std::vector<Spring> support_springs(const Panel& p, const std::vector<Support>& supports) {
  const std::vector<int> held = held_unknowns(p, supports);
  std::map<int, double> stiffness;
  each_held(p, supports, [&](const Support& s, int unknown, int component) {
    if (gives(s, component) && !std::binary_search(held.begin(), held.end(), unknown)) stiffness[unknown] += 1 / s.give;
  });
  std::vector<Spring> out;
  for (const auto& [unknown, k] : stiffness) out.push_back({unknown, k});
  return out;
}

}  // namespace evenpull::inline solver
