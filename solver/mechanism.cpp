#include "solver/mechanism.hpp"

#include "solver/linear_solver.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

// Bending stiffness of any real panel, spread over its joints, is far above this [N/m]; rounding of members' axial
// stiffness is far below it.
constexpr double no_stiffness = 1e-2;
constexpr double shift = 1e-3;  // N/m, keeps the factorisation of a mechanism alive

const char* motion_word(int component) {
  constexpr const char* words[6] = {"moves chordwise",      "moves along the span", "moves up and down",
                                    "turns about the chord", "turns about the span", "turns in the panel's plane"};
  return words[component];
}

}  // namespace

Mechanism find_mechanism(const Model& m, Held h) {
  const int n = 6 * static_cast<int>(m.panel.joints.size());
  std::vector<char> held(n, 0);
  for (int i : m.held[static_cast<int>(h)]) held[i] = 1;
  std::vector<Eigen::Triplet<double>> entries;
  for (std::size_t b = 0; b < m.beams.size(); ++b) {
    const auto at = [&](int k) { return k < 6 ? 6 * m.panel.beams[b].from + k : 6 * m.panel.beams[b].to + k - 6; };
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j < 12; ++j)
        if (at(i) >= at(j) && !held[at(i)] && !held[at(j)]) entries.emplace_back(at(i), at(j), m.beam_elastic[b](i, j));
  }
  for (int i = 0; i < n; ++i) entries.emplace_back(i, i, held[i] ? 1.0 : 0.0);
  Sparse k(n, n);
  k.setFromTriplets(entries.begin(), entries.end());
  Sparse shifted = k;
  for (int i = 0; i < n; ++i)
    if (!held[i]) shifted.coeffRef(i, i) += shift;
  LinearSolver linear;
  linear.analyse(shifted);
  Mechanism out;
  Eigen::VectorXd x(n), y;
  for (int i = 0; i < n; ++i) x[i] = held[i] ? 0 : 1.0 + 0.37 * std::sin(1.7 * i);  // no symmetry to hide behind
  x.normalize();
  if (linear.factorise(shifted)) {
    for (int round = 0; round < 5; ++round) {
      linear.solve(x, y);
      for (int i = 0; i < n; ++i)
        if (held[i]) y[i] = 0;
      x = y.normalized();
    }
    const double stiffness = x.dot(k.selfadjointView<Eigen::Lower>() * x);
    if (stiffness > no_stiffness) return out;
  }
  out.found = true;
  int worst = 0;
  x.cwiseAbs().maxCoeff(&worst);
  out.joint = worst / 6;
  out.motion = motion_word(worst % 6);
  for (std::size_t i = 0; i < m.panel.members.size() && out.member < 0; ++i) {
    const auto& joints = m.panel.members[i].joints;
    if (std::find(joints.begin(), joints.end(), out.joint) != joints.end()) out.member = static_cast<int>(i);
  }
  return out;
}

}  // namespace evenpull
