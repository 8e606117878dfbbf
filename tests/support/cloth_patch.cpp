#include "tests/support/cloth_patch.hpp"

#include "tests/support/held_pass.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Geometry>

#include <algorithm>

namespace evenpull::check {
namespace {

// Multiples of the wanted smoothing that a solve goes through when the direct way fails.
constexpr double path[] = {1e6, 1e5, 1e4, 1e3, 100, 10, 1};

// The solver wants first < fourth < second < third in number: turn the quad, or go round it the other way.
std::array<int, 4> numbered(std::array<int, 4> q) {
  std::rotate(q.begin(), std::min_element(q.begin(), q.end()), q.end());
  if (q[1] < q[3]) std::swap(q[1], q[3]);
  REQUIRE(q[2] > q[1]);
  return q;
}

// The solver measures its answers against an area of cloth: beams alone get a held piece that touches nothing.
Patch with_some_cloth(Patch p) {
  if (!p.quads().empty()) return p;
  const int first = p.add_grid(1, 1, [](double u, double v) { return Eigen::Vector3d(u, v, 0); });
  for (int n = first; n < first + 4; ++n)
    for (int k = 0; k < 3; ++k) p.hold_node(n, k);
  return p;
}

Case case_of(const PatchCloth& c) {
  Case out;
  out.cloth.stiffness = {c.warp, c.fill};
  out.cloth.poisson = c.poisson;
  out.cloth.shear = c.shear;
  out.cloth.warp_angle = c.warp_angle;
  out.blanket.inner_ribs = RibTie::free;  // sliding nodes slide without friction
  return out;
}

}  // namespace

PatchCloth isotropic(double stiffness, double poisson) {
  return {stiffness, stiffness, poisson, stiffness / (2 * (1 + poisson)), 0};
}

int Patch::add_node(const Eigen::Vector3d& placed) {
  nodes_.push_back(placed);
  ties_.emplace_back();
  return static_cast<int>(nodes_.size()) - 1;
}

void Patch::add_quad(const std::array<int, 4>& corners) { quads_.push_back(corners); }

int Patch::add_body(const Eigen::Vector3d& at) {
  bodies_.push_back(at);
  return static_cast<int>(bodies_.size()) - 1;
}

void Patch::glue(int node, int body) {
  ties_[node].kind = Tie::glued;
  ties_[node].body = body;
}

void Patch::let_slide(int node, int body, const Eigen::Vector3d& first, const Eigen::Vector3d& second) {
  ties_[node] = {Tie::bearing, body, first, second};
}

void Patch::hold_node(int node, int component) { holds_.push_back({false, node, component}); }
void Patch::hold_body(int body, int component) { holds_.push_back({true, body, component}); }

int Patch::add_beam(int from_body, int to_body, const PatchBeam& beam) {
  members_.push_back({from_body, to_body, beam});
  return static_cast<int>(members_.size()) - 1;
}

int Patch::add_grid(int rows, int columns, const std::function<Eigen::Vector3d(double, double)>& place) {
  const int first = static_cast<int>(nodes_.size());
  for (int i = 0; i <= rows; ++i)
    for (int j = 0; j <= columns; ++j) add_node(place(static_cast<double>(i) / rows, static_cast<double>(j) / columns));
  const auto at = [&](int i, int j) { return first + i * (columns + 1) + j; };
  for (int i = 0; i < rows; ++i)
    for (int j = 0; j < columns; ++j) add_quad({at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)});
  return first;
}

int Patch::add_ring(int rows, int columns, const std::function<Eigen::Vector3d(double, double)>& place) {
  const int first = static_cast<int>(nodes_.size());
  for (int i = 0; i <= rows; ++i)
    for (int j = 0; j < columns; ++j) add_node(place(static_cast<double>(i) / rows, static_cast<double>(j) / columns));
  const auto at = [&](int i, int j) { return first + i * columns + j % columns; };
  for (int i = 0; i < rows; ++i)
    for (int j = 0; j < columns; ++j) add_quad({at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)});
  return first;
}

SolveOptions PatchSolver::accurate() {
  SolveOptions a;
  a.smoothing = 1e-8;
  a.force_tolerance = 1e-6;
  a.tension_tolerance = 1e-3;
  a.most_iterations = 200;
  return a;
}

PatchSolver::PatchSolver(const Patch& wanted, const SolveOptions& a) : patch_(with_some_cloth(wanted)) {
  const Patch& p = patch_;
  Panel mesh;
  Case the_case = case_of(p.cloth_);
  for (const Eigen::Vector3d& at : p.bodies_) mesh.joints.push_back({at});
  for (std::size_t i = 0; i < p.nodes_.size(); ++i) {
    ClothNode n;
    n.placed = p.nodes_[i];
    n.row = n.column = static_cast<int>(i);
    n.tie = p.ties_[i].kind;
    n.joint = p.ties_[i].body;
    if (n.joint >= 0) n.offset = n.placed - p.bodies_[n.joint];
    if (n.tie == Tie::bearing) n.along_chord = p.ties_[i].first, n.along_span = p.ties_[i].second;
    mesh.nodes.push_back(n);
  }
  for (const std::array<int, 4>& corners : p.quads_) {
    Quad q;
    q.nodes = numbered(corners);
    q.warp_angle = p.cloth_.warp_angle;
    const Eigen::Vector3d a0 = p.nodes_[corners[2]] - p.nodes_[corners[0]],
                          b0 = p.nodes_[corners[3]] - p.nodes_[corners[1]];
    q.area = 0.5 * a0.cross(b0).norm();
    mesh.quads.push_back(q);
  }
  // Each beam is a member of its own, with a material of its own.
  for (const Patch::Member& m : p.members_) {
    Beam b;
    b.from = m.from;
    b.to = m.to;
    b.member = static_cast<int>(mesh.members.size());
    b.section = m.beam.section;
    b.up = m.beam.up;
    b.hinge_from = m.beam.hinge_from;
    b.hinge_to = m.beam.hinge_to;
    FrameMember member;
    member.material = b.member;
    member.beams = {static_cast<int>(mesh.beams.size())};
    member.joints = {m.from, m.to};
    Material material;
    material.youngs_modulus = m.beam.youngs_modulus;
    material.shear_modulus = m.beam.shear_modulus;
    the_case.materials.push_back(material);
    mesh.members.push_back(member);
    mesh.beams.push_back(b);
  }
  const Unknowns u = number_unknowns(mesh);
  std::vector<int> held;
  for (const Patch::Hold& h : p.holds_)
    held.push_back(h.body ? 6 * h.of + h.component : u.nodes[h.of].index[h.component]);
  std::sort(held.begin(), held.end());
  held.erase(std::unique(held.begin(), held.end()), held.end());
  model_ = std::make_unique<Model>(the_case, mesh, std::array<std::vector<int>, 2>{held, held});
  for (double times : path) {
    SolveOptions step = a;
    step.smoothing *= times;
    path_.push_back(std::make_unique<Equilibrium>(*model_, step));
  }
  last_ = path_.back().get();
  state_ = laid_on(*model_);
  state_.load = Eigen::VectorXd::Zero(model_->unknowns.count);
}

void PatchSolver::shrink(double warp, double fill) {
  for (auto& s : state_.shrink) s = {warp, fill};
}

void PatchSolver::shrink_quad(int quad, double warp, double fill) {
  for (int t = 4 * quad; t < 4 * quad + 4; ++t) state_.shrink[t] = {warp, fill};
}

int PatchSolver::unknown_of_node(int node, int component) const {
  REQUIRE(model_->unknowns.nodes[node].is_free());
  return model_->unknowns.nodes[node].index[component];
}

void PatchSolver::move_node(int node, int component, double to) {
  state_.unknowns[unknown_of_node(node, component)] = to;
}
void PatchSolver::move_body(int body, int component, double to) { state_.unknowns[6 * body + component] = to; }

void PatchSolver::guess_node(int node, const Eigen::Vector3d& d) {
  for (int k = 0; k < 3; ++k) move_node(node, k, d[k]);
}

void PatchSolver::load_node(int node, const Eigen::Vector3d& force) {
  const NodeMap& m = model_->unknowns.nodes[node];
  for (int k = 0; k < m.count; ++k) state_.load[m.index[k]] += m.column.col(k).dot(force);
}

void PatchSolver::load_body(int body, const Eigen::Vector3d& force, const Eigen::Vector3d& moment) {
  state_.load.segment<3>(6 * body) += force;
  state_.load.segment<3>(6 * body + 3) += moment;
}

SolveReport PatchSolver::solve() { return solve_hot({}, {}); }

SolveReport PatchSolver::solve_hot(const std::vector<int>& hot, const PanelLoadLines& lines) {
  // From soft to sharp: each answer is a good start for the next.
  Covering guess = state_;
  SolveReport r;
  for (const auto& e : path_) {
    r = e->solve_from(state_, guess, hot, lines);
    CAPTURE(r.iterations, r.residual, r.tension_change);
    REQUIRE(r.converged);
  }
  state_ = std::move(guess);
  return r;
}

SolveReport PatchSolver::iron(const ShrinkState& shrink, double dose) {
  std::vector<int> hot;
  PanelLoadLines lines(model_->triangles.size());
  for (int q = 0; q < static_cast<int>(model_->panel.quads.size()); ++q) hot.push_back(q);
  for (std::size_t t = 0; t < lines.size(); ++t)
    for (int d = 0; d < 2; ++d) lines[t][d] = load_line(held_line(shrink, d, dose), state_.shrink[t][d], 0);
  return solve_hot(hot, lines);
}

SolveReport PatchSolver::solve_under_pressure(double pressure, double settled, int most_rounds) {
  const Eigen::VectorXd dead = state_.load;
  SolveReport r;
  double moved = 0;
  for (int round = 0; round < most_rounds; ++round) {
    const Eigen::VectorXd before = state_.unknowns;
    state_.load = dead;
    for (const std::array<int, 4>& q : patch_.quads()) {
      // Vector area of the quad, a quarter of the force to each corner.
      const Eigen::Vector3d a = position(q[2]) - position(q[0]), b = position(q[3]) - position(q[1]);
      const Eigen::Vector3d quarter = 0.25 * pressure * 0.5 * a.cross(b);
      for (int n : q) load_node(n, quarter);
    }
    r = solve();
    moved = (state_.unknowns - before).cwiseAbs().maxCoeff();
    if (moved <= settled) break;
  }
  CAPTURE(moved);
  REQUIRE(moved <= settled);
  state_.load = dead;
  return r;
}

Eigen::Vector3d PatchSolver::displacement(int node) const {
  return evenpull::displacement(model_->unknowns.nodes[node], state_.unknowns);
}
Eigen::Vector3d PatchSolver::position(int node) const { return patch_.nodes()[node] + displacement(node); }
Eigen::Vector3d PatchSolver::body_translation(int body) const { return state_.unknowns.segment<3>(6 * body); }
Eigen::Vector3d PatchSolver::body_rotation(int body) const { return state_.unknowns.segment<3>(6 * body + 3); }

Mandel PatchSolver::pull(int quad) const {
  Mandel sum = Mandel::Zero();
  double weight = 0;
  for (int t = 4 * quad; t < 4 * quad + 4; ++t) {
    sum += model_->triangles[t].weight * state_.tension[t].pull;
    weight += model_->triangles[t].weight;
  }
  return sum / weight;
}

Eigen::Vector3d PatchSolver::node_force(int node) const { return -state_.nodal_force[node]; }

Eigen::Matrix<double, 6, 1> PatchSolver::body_force(int body) const {
  Eigen::Matrix<double, 6, 1> sum = Eigen::Matrix<double, 6, 1>::Zero();
  for (std::size_t i = 0; i < model_->panel.nodes.size(); ++i) {
    const NodeMap& m = model_->unknowns.nodes[i];
    if (m.is_free() || model_->panel.nodes[i].joint != body) continue;
    for (int k = 0; k < 6; ++k) sum[k] -= m.column.col(k).dot(state_.nodal_force[i]);
  }
  return sum;
}

BeamForces PatchSolver::beam_forces(int beam) const {
  const Beam& b = model_->panel.beams[beam];
  BeamVector u;
  u << state_.unknowns.segment<6>(6 * b.from), state_.unknowns.segment<6>(6 * b.to);
  return evenpull::beam_forces(model_->beams[beam], u, state_.axial[beam]);
}

double PatchSolver::tension_energy() const {
  double sum = 0;
  for (std::size_t t = 0; t < state_.tension.size(); ++t) {
    const Mandel& n = state_.tension[t].pull;
    sum += 0.5 * model_->triangles[t].weight * n.dot(model_->compliance * n);
  }
  return sum;
}

}  // namespace evenpull::check
