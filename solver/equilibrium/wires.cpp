#include "solver/equilibrium/wires.hpp"

#include "solver/equilibrium/model.hpp"
#include "solver/numerics/linear_solver.hpp"
#include "solver/statement/errors.hpp"

#include <Eigen/QR>

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

// Of the pull that a wire would have between rigid joints the frame must keep this share at least: below it nothing but
// rounding pulls against the wire. The softest frame of a case keeps some 1e-4.
constexpr double kept_at_least = 1e-6;

int unknown(const Beam& b, int k) { return k < 6 ? 6 * b.from + k : 6 * b.to + k - 6; }

// The bare frame with all wires taut, held as while it is ironed.
Sparse frame_stiffness(const Model& m) {
  const int size = 6 * static_cast<int>(m.panel.joints.size());
  std::vector<char> held(static_cast<std::size_t>(size), 0);
  for (int i : m.held[static_cast<int>(Held::while_ironed)])
    if (i < size) held[static_cast<std::size_t>(i)] = 1;
  std::vector<Eigen::Triplet<double>> entries;
  for (std::size_t b = 0; b < m.panel.beams.size(); ++b)
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j < 12; ++j) {
        const int row = unknown(m.panel.beams[b], i), column = unknown(m.panel.beams[b], j);
        if (row < column || held[static_cast<std::size_t>(row)] || held[static_cast<std::size_t>(column)]) continue;
        entries.emplace_back(row, column, m.beam_elastic[b](i, j));
      }
  for (int i = 0; i < size; ++i) entries.emplace_back(i, i, held[static_cast<std::size_t>(i)] ? 1.0 : 0.0);
  Sparse k(size, size);
  k.setFromTriplets(entries.begin(), entries.end());
  return k;
}

Eigen::VectorXd force_of(const Model& m, const Wire& w) {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(6 * static_cast<int>(m.panel.joints.size()));
  for (int i = 0; i < 12; ++i) f[unknown(m.panel.beams[w.beam], i)] += w.apart[i];
  for (int i : m.held[static_cast<int>(Held::while_ironed)])
    if (i < f.size()) f[i] = 0;
  return f;
}

}  // namespace

double Wire::pull(const Panel& p, const Eigen::VectorXd& unknowns) const {
  double e = 0;
  for (int i = 0; i < 12; ++i) e += apart[i] * unknowns[unknown(p.beams[beam], i)];
  return at_rest + rate * e;
}

std::vector<Wire> find_wires(const Case& c, const Panel& p) {
  std::vector<Wire> out;
  int brace = 0;  // the panel's braces come in the order of the case's
  for (const FrameMember& f : p.members) {
    if (f.role != MemberRole::brace) continue;
    const int which = brace++;
    if (which >= static_cast<int>(c.braces.size()) || !c.braces[which].wire) continue;
    Wire w;
    w.brace = which;
    w.beam = f.beams.front();
    const Beam& b = p.beams[w.beam];
    const Eigen::Vector3d along = p.joints[b.to].position - p.joints[b.from].position;
    const double length = along.norm();
    w.rate = c.materials[f.material].youngs_modulus * b.section.area / length;
    w.at_rest = c.braces[which].tightness;
    w.apart.segment<3>(0) = -along / length;
    w.apart.segment<3>(6) = along / length;
    out.push_back(w);
  }
  return out;
}

BeamMatrix wire_stiffness(const Wire& w) { return w.rate * w.apart * w.apart.transpose(); }

BeamMatrix string_stiffness(const BeamShape& b) {
  const Eigen::Vector3d along = b.to - b.from;
  const double length = along.norm();
  const Eigen::Matrix3d across =
      (Eigen::Matrix3d::Identity() - along * along.transpose() / along.squaredNorm()) / length;
  BeamMatrix k = BeamMatrix::Zero();
  k.block<3, 3>(0, 0) = k.block<3, 3>(6, 6) = across;
  k.block<3, 3>(0, 6) = k.block<3, 3>(6, 0) = -across;
  return k;
}

void rig(const Model& m, std::vector<Wire>& wires) {
  if (std::all_of(wires.begin(), wires.end(), [](const Wire& w) { return w.at_rest == 0; })) return;
  const Sparse k = frame_stiffness(m);
  LinearSolver linear;
  linear.analyse(k);
  if (!linear.factorise(k)) return;
  // N = N_0 + k e with K u = -sum of N_0 apart, where K holds the taut wires:  N = (1 - k G) N_0.
  const Eigen::Index n = static_cast<Eigen::Index>(wires.size());
  Eigen::MatrixXd left = Eigen::MatrixXd::Identity(n, n);
  Eigen::VectorXd wanted(n);
  std::vector<Eigen::VectorXd> force;
  for (const Wire& w : wires) force.push_back(force_of(m, w));
  for (Eigen::Index j = 0; j < n; ++j) {
    Eigen::VectorXd moved;
    linear.solve(force[static_cast<std::size_t>(j)], moved);
    for (Eigen::Index i = 0; i < n; ++i)
      left(i, j) -= wires[static_cast<std::size_t>(i)].rate * force[static_cast<std::size_t>(i)].dot(moved);
    wanted[j] = wires[static_cast<std::size_t>(j)].at_rest;
  }
  Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(left);
  qr.setThreshold(kept_at_least);
  const Eigen::VectorXd at_rest = qr.solve(wanted);
  for (Eigen::Index i = 0; i < n; ++i) {
    Wire& w = wires[static_cast<std::size_t>(i)];
    constexpr double near = 1e-3;  // of what is wanted
    if (std::abs((left * at_rest - wanted)[i]) > near * wanted.maxCoeff() ||
        std::abs(at_rest[i]) * kept_at_least > wanted.maxCoeff())
      throw CaseError("brace", "nothing in the frame pulls against the wire \"" + m.the_case.braces[w.brace].name +
                                   "\", so it cannot be as tight as stated; state the wire that crosses it as well, or "
                                   "leave tightness out");
    w.at_rest = at_rest[i];
  }
}

}  // namespace evenpull::inline solver
