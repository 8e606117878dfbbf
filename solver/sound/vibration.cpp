#include "solver/sound/vibration.hpp"

#include "solver/numerics/lanczos.hpp"
#include "solver/sound/air_mass.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace evenpull::inline solver {
namespace {

constexpr double two_pi = 6.28318530717958647692;
constexpr double residual_allowed = 1e-8;

std::vector<int> all_or(const Model& m, std::vector<int> quads) {
  if (!quads.empty()) return quads;
  quads.resize(m.panel.quads.size());
  std::iota(quads.begin(), quads.end(), 0);
  return quads;
}

// Unknowns that move: free nodes of which every quad vibrates.
std::vector<char> moving(const Model& m, const std::vector<int>& quads, Held h) {
  std::vector<char> vibrates(m.panel.quads.size(), 0), node(m.panel.nodes.size(), 1), moves(m.unknowns.count, 0);
  for (int q : quads) vibrates[q] = 1;
  for (std::size_t q = 0; q < vibrates.size(); ++q)
    if (!vibrates[q])
      for (int n : m.panel.quads[q].nodes) node[n] = 0;
  for (std::size_t n = 0; n < node.size(); ++n)
    if (node[n] && m.unknowns.nodes[n].is_free())
      for (int k = 0; k < 3; ++k) moves[m.unknowns.nodes[n].index[k]] = 1;
  for (int i : m.held[static_cast<int>(h)]) moves[i] = 0;
  return moves;
}

// Rows and columns of what rests: nothing but `diagonal` on the diagonal.
void put_at_rest(Sparse& a, const std::vector<char>& moves, double diagonal) {
  for (int j = 0; j < a.outerSize(); ++j)
    for (Sparse::InnerIterator k(a, j); k; ++k)
      if (!moves[j] || !moves[k.row()]) k.valueRef() = k.row() == j ? diagonal : 0;
}

// Displacement along the normal of each node <-> unknowns.
struct NormalMotion {
  const Model& m;
  Eigen::Vector3d normal;
  Eigen::VectorXd of(const Eigen::VectorXd& d) const {
    Eigen::VectorXd v(m.panel.nodes.size());
    for (int i = 0; i < v.size(); ++i) v[i] = displacement(m.unknowns.nodes[i], d).dot(normal);
    return v;
  }
  void add_forces(const Eigen::VectorXd& f, const std::vector<char>& moves, Eigen::VectorXd& r) const {
    for (int i = 0; i < f.size(); ++i) {
      const NodeMap& node = m.unknowns.nodes[i];
      for (int k = 0; k < node.count; ++k)
        if (moves[node.index[k]]) r[node.index[k]] += f[i] * node.column.col(k).dot(normal);
    }
  }
};

// The sign that makes the largest displacement +1; of equal ones the first.
Eigen::VectorXd scaled(const Eigen::VectorXd& x) {
  int largest = 0;
  x.cwiseAbs().maxCoeff(&largest);
  return x / x[largest];
}

AirMass air_over(const Model& m, const Covering& s, const std::vector<int>& quads) {
  std::vector<Eigen::Vector3d> nodes;
  for (std::size_t i = 0; i < m.panel.nodes.size(); ++i)
    nodes.push_back(m.panel.nodes[i].placed + displacement(m.unknowns.nodes[i], s.unknowns));
  std::vector<std::array<int, 4>> corners;
  for (int q : quads) corners.push_back(m.panel.quads[q].nodes);
  return AirMass(nodes, corners);
}

}  // namespace

Sparse cloth_mass(const Model& m, const std::vector<int>& quads, double areal_mass) {
  Sparse mass = m.pattern;
  std::fill_n(mass.valuePtr(), mass.nonZeros(), 0.0);
  for (int q : quads) {
    // Of corners, times the identity: a linear triangle of mass w has w/6 on and w/12 off the diagonal.
    Eigen::Matrix4d between = Eigen::Matrix4d::Zero();
    for (int c = 0; c < 4; ++c)
      for (int i : triangle_corners[c])
        for (int j : triangle_corners[c])
          between(i, j) += areal_mass * m.triangles[4 * q + c].weight / (i == j ? 6 : 12);
    for (int a = 0; a < 4; ++a)
      for (int b = 0; b < 4; ++b) {
        const NodeMap& first = m.unknowns.nodes[m.panel.quads[q].nodes[a]];
        const NodeMap& second = m.unknowns.nodes[m.panel.quads[q].nodes[b]];
        for (int i = 0; i < first.count; ++i)
          for (int j = 0; j < second.count; ++j)
            if (first.index[i] >= second.index[j])
              mass.valuePtr()[position_of(mass, first.index[i], second.index[j])] +=
                  between(a, b) * first.column.col(i).dot(second.column.col(j));
      }
  }
  return mass;
}

std::vector<Vibration> natural_vibrations(Equilibrium& e, const Covering& state, const VibrationOptions& options) {
  assert(options.areal_mass > 0 && options.modes > 0);
  const Model& m = e.model();
  const std::vector<int> quads = all_or(m, options.quads);
  const std::vector<char> moves = moving(m, quads, state.held);
  Sparse stiffness = e.tangent(state);
  put_at_rest(stiffness, moves, stiffness.diagonal().maxCoeff());
  Sparse mass = cloth_mass(m, quads, options.areal_mass);
  put_at_rest(mass, moves, 0);
  LinearSolver linear;
  linear.use(m.analysis);
  if (!linear.factorise(stiffness))
    throw NotConverged("the cloth is not stiff enough to vibrate", "vibration", 0,
                       {"unknowns without stiffness", 1, 0, ""}, "it is loose somewhere");

  const AirMass air = air_over(m, state, quads);
  const NormalMotion across{m, air.normal()};
  SymmetricPencil p;
  p.size = m.unknowns.count;
  p.times_t = [&](const Eigen::VectorXd& x) -> Eigen::VectorXd {
    return stiffness.selfadjointView<Eigen::Lower>() * x;
  };
  p.times_a = [&](const Eigen::VectorXd& x) {
    Eigen::VectorXd r = mass.selfadjointView<Eigen::Lower>() * x;
    if (options.air_density > 0)
      across.add_forces(options.air_density * options.air_sides * air.times(across.of(x)), moves, r);
    return r;
  };
  p.solve_t = [&](const Eigen::VectorXd& b) {
    Eigen::VectorXd x;
    linear.solve(b, x);
    return x;
  };
  LanczosOptions want;
  want.count = options.modes;
  want.tolerance = residual_allowed;
  std::vector<Vibration> out;
  for (const EigenPair& pair : largest_pairs(p, want)) {
    if (pair.residual > residual_allowed || pair.value <= 0)
      throw NotConverged("a natural vibration was not found", "vibration", want.most_steps,
                         {"residual, as a share of the mode", pair.residual, residual_allowed, ""}, "");
    Vibration v;
    v.frequency = 1 / (two_pi * std::sqrt(pair.value));
    v.shape = scaled(pair.vector);
    v.cloth_mass = v.shape.dot(mass.selfadjointView<Eigen::Lower>() * v.shape);
    v.air_volume = air.volume(across.of(v.shape));
    v.residual = pair.residual;
    out.push_back(std::move(v));
  }
  return out;
}

double frequency_with_air(const Vibration& v, double air_density, double air_sides) {
  return v.frequency * std::sqrt(v.cloth_mass / (v.cloth_mass + air_density * air_sides * v.air_volume));
}

}  // namespace evenpull::inline solver
