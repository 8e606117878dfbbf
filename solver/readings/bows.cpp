#include "solver/readings/bows.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenpull::inline solver {
namespace {

// Largest deviation of joints from the straight line through their end joints, as displaced, over its length; along two
// directions.
WorstBow bow_between(const Model& m, const Covering& s, const std::vector<int>& joints, const Eigen::Vector3d& a,
                     const Eigen::Vector3d& b) {
  const auto moved = [&](int j) { return Eigen::Vector3d(s.unknowns.segment<3>(6 * j)); };
  const Eigen::Vector3d from = m.panel.joints[joints.front()].position, to = m.panel.joints[joints.back()].position;
  const double length = (to - from).norm();
  WorstBow w;
  w.joint = joints.front();
  for (int j : joints) {
    const double share = (m.panel.joints[j].position - from).dot(to - from) / (length * length);
    const Eigen::Vector3d off = moved(j) - (1 - share) * moved(joints.front()) - share * moved(joints.back());
    const double bow = std::hypot(off.dot(a), off.dot(b)) / length;
    if (bow > w.value) w.value = bow, w.joint = j;
  }
  w.allowed = allowed_bow(m.the_case.limits, length);
  return w;
}

double length_between(const Panel& p, const std::vector<int>& joints) {
  return (p.joints[joints.back()].position - p.joints[joints.front()].position).norm();
}

double lasting_of(const Model& m, const FrameMember& f) { return m.the_case.materials[f.material].lasting_movement; }

// The larger by use; by itself where nothing is allowed because no limit was stated.
bool is_worse(const WorstBow& a, const WorstBow& b) {
  return a.allowed > 0 ? a.use() > b.use() : a.lasting * a.value > b.lasting * b.value;
}

// First and last station of a member's hinges in use; the first is not before the last where it has fewer than two.
std::pair<double, double> hinge_stations(const Case& c, std::size_t member) {
  double first = 1e300, last = -1e300;
  for (const Support& s : c.in_use) {
    const bool hinge = s.kind == SupportKind::hinge || s.kind == SupportKind::sliding_hinge;
    if (!hinge || s.member != static_cast<int>(member) || s.whole_length) continue;
    first = std::min(first, s.station), last = std::max(last, s.station);
  }
  return {first, last};
}

// Joints between the outermost hinges; all of them where the supports name fewer than two.
std::vector<int> between_hinges(const Model& m, std::size_t member) {
  const std::vector<int>& joints = m.panel.members[member].joints;
  const auto [first, last] = hinge_stations(m.the_case, member);
  if (!(first < last)) return joints;
  const auto nearest = [&](double station) {
    const auto off = [&](int j) { return std::abs(m.panel.joints[j].position.y() - station); };
    return std::min_element(joints.begin(), joints.end(), [&](int a, int b) { return off(a) < off(b); });
  };
  return {nearest(first), nearest(last) + 1};
}

void read_hinge_line(const Model& m, const Covering& s, Readings& r) {
  const int member = hinge_line_member(m.the_case);
  if (member < 0 || m.panel.members.size() < m.the_case.span_members.size()) return;
  const std::vector<int> joints = between_hinges(m, static_cast<std::size_t>(member));
  if (joints.size() < 3) return;  // nothing between that could bow
  r.hinge_line_bow = bow_between(m, s, joints, Eigen::Vector3d::UnitX(), Eigen::Vector3d::UnitZ());
  r.hinge_line_bow.value *= length_between(m.panel, joints);
  r.hinge_line_bow.member = member;
  r.hinge_line_bow.allowed = m.the_case.limits.hinge_line_bow;
  r.hinge_line_bow.lasting = lasting_of(m, m.panel.members[member]);
}

}  // namespace

int hinge_line_member(const Case& c) {
  for (const bool said : {true, false})
    for (std::size_t i = 0; i < c.span_members.size(); ++i) {
      const auto [first, last] = hinge_stations(c, i);
      if (said ? c.span_members[i].hinge_line : first < last) return static_cast<int>(i);
    }
  return -1;
}

double allowed_bow(const Limits& l, double length) { return std::max(l.bow_per_spacing, l.least_bow / length); }

void read_bows(const Model& m, const Covering& s, Readings& r) {
  const Panel& p = m.panel;
  double edge_lasting = 1;
  for (const FrameMember& f : p.members)
    if (f.role == MemberRole::trailing_edge) edge_lasting = lasting_of(m, f);
  for (int b = 0; b < p.bays; ++b) {
    WorstBow w = bow_between(m, s, p.edge_of(b), Eigen::Vector3d::UnitX(), Eigen::Vector3d::UnitZ());
    w.bay = b;
    w.lasting = edge_lasting;
    r.edge_bows.push_back(w.value);
    r.edge_bow_uses.push_back(w.use());
    if (r.edge_bow.bay < 0 || is_worse(w, r.edge_bow)) r.edge_bow = w;
  }
  for (std::size_t i = 0; i < p.members.size(); ++i) {
    const FrameMember& f = p.members[i];
    if (f.role != MemberRole::end_rib && f.role != MemberRole::tip_bow) continue;
    WorstBow w = bow_between(m, s, f.joints, Eigen::Vector3d::UnitY(), Eigen::Vector3d::UnitZ());
    w.member = static_cast<int>(i);
    w.lasting = lasting_of(m, f);
    r.end_rib_bows.push_back(w.value);
    r.end_rib_bow_uses.push_back(w.use());
    if (r.end_rib_bow.member < 0 || is_worse(w, r.end_rib_bow)) r.end_rib_bow = w;
  }
  std::vector<int> edge;  // without what pockets take out
  std::copy_if(p.edge_joint.begin(), p.edge_joint.end(), std::back_inserter(edge),
               [](int joint) { return joint >= 0; });
  if (edge.size() > 1) {
    r.whole_edge_bow = bow_between(m, s, edge, Eigen::Vector3d::UnitX(), Eigen::Vector3d::UnitZ());
    r.whole_edge_bow.allowed = m.the_case.limits.whole_edge_bow;
    r.whole_edge_bow.lasting = edge_lasting;
  }
  read_hinge_line(m, s, r);
}

}  // namespace evenpull::inline solver
