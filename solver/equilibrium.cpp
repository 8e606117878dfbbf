#include "solver/equilibrium.hpp"

#include "solver/friction.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

Corners corners_of(const std::vector<Eigen::Vector3d>& x, const Quad& q, const int corner[3]) {
  Corners c;
  for (int i = 0; i < 3; ++i) c.row(i) = x[q.nodes[corner[i]]].transpose();
  return c;
}

// Force of one triangle on its corners, one a row [N]: weight * g_i . N F^T.
Corners corner_forces(const Triangle& t, const Eigen::Matrix<double, 3, 2>& f, const Mandel& n) {
  constexpr double root2 = 1.41421356237309504880;
  Eigen::Matrix2d pull;
  pull << n[0], n[2] / root2, n[2] / root2, n[1];
  return t.weight * t.gradient * (pull * f.transpose());
}

// d(Green-Lagrange) for corner displacements, in Mandel form (first order).
Mandel strain_step(const Triangle& t, const Eigen::Matrix<double, 3, 2>& f, const Corners& du) {
  constexpr double root2 = 1.41421356237309504880;
  const Eigen::Matrix<double, 3, 2> df = du.transpose() * t.gradient;
  return {f.col(0).dot(df.col(0)), f.col(1).dot(df.col(1)),
          root2 * 0.5 * (f.col(0).dot(df.col(1)) + f.col(1).dot(df.col(0)))};
}

}  // namespace

Covering laid_on(const Model& m) {
  Covering s;
  s.unknowns = Eigen::VectorXd::Zero(m.unknowns.count);
  Tension t;
  ClothPoint p;
  p.cold = &m.compliance;
  // A loose start: the wrinkle strain is the looseness, the pull a whisper.
  const double whisper = 1e-3;  // N/m, only a starting point
  solve_law(p, -m.looseness, whisper * std::max(1e-4, m.looseness.maxCoeff()), t);
  s.tension.assign(m.triangles.size(), t);
  s.shrink.assign(m.triangles.size(), {0, 0});
  s.friction.assign(m.unknowns.sliding.size(), Eigen::Vector2d::Zero());
  s.axial.assign(m.beams.size(), 0);
  s.nodal_force.assign(m.panel.nodes.size(), Eigen::Vector3d::Zero());
  return s;
}

Equilibrium::Equilibrium(const Model& m, const Accuracy& a) : model_(m), accuracy_(a), matrix_(m.pattern) {
  linear_.use(m.analysis);
  frame_.resize(m.beams.size());
  points_.resize(m.triangles.size());
  for (ClothPoint& p : points_) p.cold = &m.compliance;
  work_.resize(m.triangles.size());
  force_.resize(m.panel.nodes.size());
  predicted_.resize(m.panel.nodes.size());
}

void Equilibrium::prepare_frame(const Covering& s) {
  for (std::size_t b = 0; b < frame_.size(); ++b)
    frame_[b] = model_.beam_elastic[b] + beam_geometric_stiffness(model_.beams[b], s.axial[b]);
}

std::vector<Eigen::Vector3d> Equilibrium::nodal_displacements(const Eigen::VectorXd& d) const {
  std::vector<Eigen::Vector3d> u(model_.panel.nodes.size());
  for (std::size_t i = 0; i < u.size(); ++i) u[i] = displacement(model_.unknowns.nodes[i], d);
  return u;
}

Eigen::VectorXd Equilibrium::gather(const std::vector<Eigen::Vector3d>& nodal) const {
  Eigen::VectorXd r = Eigen::VectorXd::Zero(model_.unknowns.count);
  for (std::size_t i = 0; i < nodal.size(); ++i) {
    const NodeMap& m = model_.unknowns.nodes[i];
    for (int k = 0; k < m.count; ++k) r[m.index[k]] += m.column.col(k).dot(nodal[i]);
  }
  return r;
}

Eigen::VectorXd Equilibrium::frame_force(const Eigen::VectorXd& d) const {
  Eigen::VectorXd r = Eigen::VectorXd::Zero(model_.unknowns.count);
  for (std::size_t b = 0; b < frame_.size(); ++b) {
    const int i = 6 * model_.panel.beams[b].from, j = 6 * model_.panel.beams[b].to;
    BeamVector u;
    u << d.segment<6>(i), d.segment<6>(j);
    const BeamVector f = frame_[b] * u;
    r.segment<6>(i) += f.head<6>();
    r.segment<6>(j) += f.tail<6>();
  }
  return r;
}

Equilibrium::Sums Equilibrium::evaluate(const Covering& s, const std::vector<Eigen::Vector3d>& u, bool with_matrix) {
  Sums sums;
  std::fill(force_.begin(), force_.end(), Eigen::Vector3d::Zero());
  std::fill(predicted_.begin(), predicted_.end(), Eigen::Vector3d::Zero());
  std::vector<Eigen::Vector3d> x(u.size());
  for (std::size_t i = 0; i < u.size(); ++i) x[i] = model_.panel.nodes[i].placed + u[i];
  for (int q = 0; q < static_cast<int>(model_.panel.quads.size()); ++q) {
    const Quad& quad = model_.panel.quads[q];
    Eigen::Matrix<double, 12, 12> k = Eigen::Matrix<double, 12, 12>::Zero();
    for (int c = 0; c < 4; ++c) {
      const int t = 4 * q + c;
      const Triangle& tri = model_.triangles[t];
      const int* corner = triangle_corners[c];
      TriangleWork& w = work_[t];
      w.f = deformation(tri, corners_of(x, quad, corner));
      Mandel e = green_lagrange(w.f) - model_.looseness;
      e[0] += points_[t].shrink[0];
      e[1] += points_[t].shrink[1];
      const Tension& now = s.tension[t];
      const Linearised lin = linearise(points_[t], e, now, accuracy_.smoothing);
      w.stiffness = lin.stiffness;
      w.correction = lin.correction;
      sums.tension_change = std::max(sums.tension_change, lin.correction.cwiseAbs().maxCoeff());
      sums.gap += tri.weight * (now.pull.dot(now.wrinkle) + lin.mismatch.squaredNorm() / model_.softest);
      const Corners g = corner_forces(tri, w.f, now.pull), dg = corner_forces(tri, w.f, lin.correction);
      for (int i = 0; i < 3; ++i) {
        force_[quad.nodes[corner[i]]] += g.row(i).transpose();
        predicted_[quad.nodes[corner[i]]] += (g.row(i) + dg.row(i)).transpose();
      }
      if (!with_matrix) continue;
      const Eigen::Matrix<double, 3, 9> b = strain_matrix(tri, w.f);
      const Eigen::Matrix<double, 3, 9> mb = tri.weight * (lin.stiffness * b);
      const Eigen::Matrix3d geo = geometric_stiffness(tri, now.pull);
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j) {
          auto block = k.block<3, 3>(3 * corner[i], 3 * corner[j]);
          block.noalias() += b.block<3, 3>(0, 3 * i).transpose() * mb.block<3, 3>(0, 3 * j);
          block.diagonal().array() += geo(i, j);
        }
    }
    if (with_matrix) assemble_quad(q, k, matrix_.valuePtr());
  }
  return sums;
}

void Equilibrium::assemble_quad(int q, const Eigen::Matrix<double, 12, 12>& k, double* values) const {
  const std::vector<int>& at = model_.quad_positions[q];
  if (at.size() == 78 && model_.free_quad(q)) {
    int n = 0;
    for (int r = 0; r < 12; ++r)
      for (int c = 0; c <= r; ++c) values[at[n++]] += k(r, c);
    return;
  }
  int n = 0;
  const auto& nodes = model_.panel.quads[q].nodes;
  for (int a = 0; a < 4; ++a)
    for (int b = 0; b <= a; ++b) {
      const NodeMap &ma = model_.unknowns.nodes[nodes[a]], &mb = model_.unknowns.nodes[nodes[b]];
      const Eigen::Matrix3d block = k.block<3, 3>(3 * a, 3 * b);
      for (int i = 0; i < ma.count; ++i) {
        const Eigen::Vector3d row = block.transpose() * ma.column.col(i);
        for (int j = 0; j < mb.count; ++j, ++n) {
          const double v = row.dot(mb.column.col(j));
          if (a == b) {
            if (ma.index[i] >= mb.index[j]) values[at[n]] += v;
          } else {
            // K_ab and its transpose K_ba meet on the diagonal where both corners share an unknown.
            values[at[n]] += ma.index[i] == mb.index[j] ? 2 * v : v;
          }
        }
      }
    }
}

void Equilibrium::add_frame(const std::vector<BeamMatrix>& beams, double* values) const {
  for (std::size_t b = 0; b < beams.size(); ++b)
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j <= i; ++j) values[model_.beam_positions[b][lower_index(i, j)]] += beams[b](i, j);
}

std::vector<double> Equilibrium::thresholds() const {
  std::vector<double> tau;
  const Blanket& blanket = model_.the_case.blanket;
  for (const SlidingPoint& s : model_.unknowns.sliding) {
    const ClothNode &top = model_.panel.nodes[s.top_node], &bottom = model_.panel.nodes[s.bottom_node];
    if (s.kind == SlidingPoint::Kind::wrapped)
      tau.push_back(wrap_threshold(force_[s.top_node].dot(top.along_chord), force_[s.bottom_node].dot(bottom.along_chord),
                                   blanket.edge_friction, blanket.wrap_angle));
    else
      tau.push_back(blanket.inner_ribs == RibTie::free && !top.on_nose
                        ? 0
                        : blanket.rib_friction * std::max(0.0, force_[s.top_node].dot(top.normal)));
  }
  return tau;
}

void Equilibrium::hold(Eigen::VectorXd& r, Held h) const {
  for (int i : model_.held[static_cast<int>(h)]) r[i] = 0;
}

void Equilibrium::hold_matrix(Sparse& k, Held h) const {
  constexpr double unit = 1e5;  // any number of the size of the other diagonals
  for (int at : model_.held_positions[static_cast<int>(h)]) k.valuePtr()[at] = 0;
  for (int i : model_.held[static_cast<int>(h)]) k.valuePtr()[model_.diagonal[i]] = unit;
}

void Equilibrium::accept(Covering& s) const {
  for (std::size_t t = 0; t < points_.size(); ++t)
    if (points_[t].hot)
      for (int d = 0; d < 2; ++d) s.shrink[t][d] = shrink_after(points_[t], d, s.tension[t].pull[d]);
  for (std::size_t b = 0; b < model_.beams.size(); ++b) {
    BeamVector u;
    u << s.unknowns.segment<6>(6 * model_.panel.beams[b].from), s.unknowns.segment<6>(6 * model_.panel.beams[b].to);
    s.axial[b] = beam_forces(model_.beams[b], u, 0).axial;
  }
  s.nodal_force = force_;
}

SolveReport Equilibrium::solve(Covering& state, const std::vector<int>& hot_quads, const HotLines& lines) {
  Covering answer = state;
  const SolveReport report = solve_from(state, answer, hot_quads, lines);
  if (report.converged) state = std::move(answer);
  return report;
}

SolveReport Equilibrium::solve_from(const Covering& state, Covering& guess, const std::vector<int>& hot_quads,
                                    const HotLines& lines) {
  SolveReport report;
  Covering s = guess;
  s.shrink = state.shrink;
  s.axial = state.axial;
  prepare_frame(s);
  for (std::size_t t = 0; t < points_.size(); ++t) {
    points_[t].hot = false;
    points_[t].shrink[0] = s.shrink[t][0];
    points_[t].shrink[1] = s.shrink[t][1];
  }
  std::vector<Eigen::Vector3d> u = nodal_displacements(s.unknowns);
  for (int q : hot_quads)
    for (int c = 0; c < 4; ++c) {
      const int t = 4 * q + c;
      ClothPoint& p = points_[t];
      p.hot = true;
      p.line[0] = lines[t][0];
      p.line[1] = lines[t][1];
      // The law changed here: start from its own answer at the present shape.
      Corners x;
      for (int i = 0; i < 3; ++i) {
        const int n = model_.panel.quads[q].nodes[triangle_corners[c][i]];
        x.row(i) = (model_.panel.nodes[n].placed + u[n]).transpose();
      }
      Mandel e = green_lagrange(deformation(model_.triangles[t], x)) - model_.looseness;
      e[0] += p.shrink[0];
      e[1] += p.shrink[1];
      Tension fresh;
      if (solve_law(p, e, accuracy_.smoothing, fresh) > 0) s.tension[t] = fresh;
    }

  const Eigen::VectorXd& start = state.unknowns;
  const auto& sliding = model_.unknowns.sliding;
  Eigen::VectorXd step(model_.unknowns.count);
  for (report.iterations = 0; report.iterations <= accuracy_.most_iterations; ++report.iterations) {
    std::fill_n(matrix_.valuePtr(), matrix_.nonZeros(), 0.0);
    const Sums sums = evaluate(s, u, true);
    add_frame(frame_, matrix_.valuePtr());
    const std::vector<double> tau = thresholds();

    const Eigen::VectorXd frame = frame_force(s.unknowns);
    Eigen::VectorXd residual = gather(force_) + frame, rhs = gather(predicted_) + frame;
    std::vector<FrictionStep> rub(sliding.size());
    report.threshold_error = 0;
    for (std::size_t i = 0; i < sliding.size(); ++i) {
      Eigen::Vector2d slip(0, 0);
      for (int k = 0; k < sliding[i].unknowns; ++k)
        slip[k] = s.unknowns[sliding[i].first_unknown + k] - start[sliding[i].first_unknown + k];
      rub[i] = friction_step(slip, state.friction[i], s.friction[i], tau[i], accuracy_.sliding_width);
      report.threshold_error =
          std::max(report.threshold_error, (s.friction[i] - rub[i].predicted).norm() / (tau[i] + 1.0));
      for (int k = 0; k < sliding[i].unknowns; ++k) {
        const int n = sliding[i].first_unknown + k;
        residual[n] += s.friction[i][k];
        rhs[n] += rub[i].predicted[k];
        matrix_.valuePtr()[model_.diagonal[n]] += rub[i].stiffness(k, k);
      }
      if (model_.sliding_cross[i] >= 0) matrix_.valuePtr()[model_.sliding_cross[i]] += rub[i].stiffness(0, 1);
    }
    hold(residual, s.held);
    hold(rhs, s.held);
    report.residual = residual.cwiseAbs().maxCoeff();
    report.tension_change = sums.tension_change;
    report.tension_bound = std::sqrt(2 * sums.gap / (model_.softest * model_.cloth_area));
    if (!std::isfinite(report.residual)) return report;
    if (accuracy_.watch) accuracy_.watch(report);
    if (report.iterations > 0 && report.residual <= accuracy_.force_tolerance &&
        report.tension_change <= accuracy_.tension_tolerance &&
        report.threshold_error <= accuracy_.friction_tolerance) {
      report.converged = true;
      break;
    }
    hold_matrix(matrix_, s.held);
    if (!linear_.factorise(matrix_)) {
      report.stable = false;
      return report;
    }
    linear_.solve(-rhs, step);
    const std::vector<Eigen::Vector3d> du = nodal_displacements(step);
    for (int q = 0; q < static_cast<int>(model_.panel.quads.size()); ++q)
      for (int c = 0; c < 4; ++c) {
        const int t = 4 * q + c;
        const TriangleWork& w = work_[t];
        const Mandel de =
            strain_step(model_.triangles[t], w.f, corners_of(du, model_.panel.quads[q], triangle_corners[c]));
        advance(s.tension[t], w.stiffness * de + w.correction, accuracy_.smoothing);
      }
    for (std::size_t i = 0; i < sliding.size(); ++i) {
      Eigen::Vector2d dq(0, 0);
      for (int k = 0; k < sliding[i].unknowns; ++k) dq[k] = step[sliding[i].first_unknown + k];
      s.friction[i] = clip(rub[i].predicted + rub[i].stiffness * dq, tau[i]);
      if (sliding[i].unknowns == 1) s.friction[i][1] = 0;
    }
    s.unknowns += step;
    for (std::size_t i = 0; i < u.size(); ++i) u[i] += du[i];
  }
  if (!report.converged) return report;
  accept(s);
  guess = std::move(s);
  return report;
}

}  // namespace evenpull
