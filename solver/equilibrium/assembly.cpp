#include "solver/equilibrium/assembly.hpp"

#include "solver/cloth/quad_kernel.hpp"
#include "solver/equilibrium/holding.hpp"
#include "solver/equilibrium/padded.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr double root2 = 1.41421356237309504880;

QuadLaw law_of(const Model& m, double smoothing) {
  QuadLaw law;
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j <= i; ++j) law.compliance[lower_index(i, j)] = m.compliance(i, j);
  law.softest = m.softest;
  law.smoothing = smoothing;
  return law;
}

}  // namespace

Assembly::Assembly(const Model& m, double smoothing)
    : model_(m),
      law_(law_of(m, smoothing)),
      matrix_(m.pattern),
      frame_(m.beams.size()),
      taut_(m.wires.size(), 1),
      points_(m.triangles.size()),
      states_(m.shapes.size()),
      work_(m.shapes.size()),
      blocks_(m.tangent.pairs()),
      x_(m.panel.nodes.size()),
      du_(x_),
      force_(x_),
      predicted_(x_) {
  for (ClothPoint& p : points_) p.cold = &m.compliance;
}

void Assembly::prepare_frame(const Covering& s) {
  for (std::size_t b = 0; b < frame_.size(); ++b)
    if (model_.stands(b, s.held)) frame_[b] = model_.beam_elastic[b] + s.axial[b] * model_.beam_geometric[b];
    else frame_[b].setZero();
  for (std::size_t w = 0; w < taut_.size(); ++w)
    if (!taut_[w]) frame_[model_.wires[w].beam] = slack_stiffness * model_.beam_elastic[model_.wires[w].beam];
}

void Assembly::follow_wires(const Eigen::VectorXd& d) {
  for (std::size_t w = 0; w < taut_.size(); ++w) taut_[w] = model_.wires[w].pull(model_.panel, d) >= 0;
}

int Assembly::first_wire_off(const Eigen::VectorXd& d) const {
  for (std::size_t w = 0; w < taut_.size(); ++w)
    if ((model_.wires[w].pull(model_.panel, d) >= 0) != (taut_[w] != 0)) return static_cast<int>(w);
  return -1;
}

void Assembly::follow_member_forces(Covering& s) {
  for (std::size_t b = 0; b < frame_.size(); ++b)
    s.axial[b] = model_.stands(b, s.held) ? axial_force(model_.beams[b], ends_of(model_.panel.beams[b], s.unknowns))
                                          : 0;
  for (const Wire& w : model_.wires) s.axial[w.beam] = std::max(0.0, w.pull(model_.panel, s.unknowns));
  prepare_frame(s);
}

void Assembly::take_state(const Covering& s) {
  for (std::size_t t = 0; t < points_.size(); ++t) {
    QuadState& q = states_[t / 4];
    for (int k = 0; k < 3; ++k) {
      q.pull[k][t % 4] = s.tension[t].pull[k];
      q.wrinkle[k][t % 4] = s.tension[t].wrinkle[k];
    }
    points_[t].hot = false;
    for (int d = 0; d < 2; ++d) {
      points_[t].shrink[d] = s.shrink[t][d];
      q.shift[d][t % 4] = s.shrink[t][d] - model_.looseness[d];
      q.more_shrink[d][t % 4] = q.more_give[d][t % 4] = 0;
    }
  }
}

void Assembly::give_state(Covering& s) const {
  for (std::size_t t = 0; t < points_.size(); ++t)
    for (int k = 0; k < 3; ++k) {
      s.tension[t].pull[k] = states_[t / 4].pull[k][t % 4];
      s.tension[t].wrinkle[k] = states_[t / 4].wrinkle[k][t % 4];
    }
}

// Pull and wrinkle strain of an answer at a small smoothing, moved to the present larger one: in the principal frame of
// Z = c N - S both follow from n c - beta / n = z. What the law still misses then, the first iteration mends.
void Assembly::recentre() {
  const double c = 0.5 * (model_.compliance(0, 0) + model_.compliance(1, 1));
  const double beta = law_.smoothing;
  for (QuadState& q : states_)
    for (int t = 0; t < 4; ++t) {
      const double z0 = c * q.pull[0][t] - q.wrinkle[0][t], z1 = c * q.pull[1][t] - q.wrinkle[1][t];
      const double z2 = (c * q.pull[2][t] - q.wrinkle[2][t]) / root2;
      // R = sqrt(Z^2 + 4 beta c I), closed form for 2 x 2.
      const double m0 = z0 * z0 + z2 * z2 + 4 * beta * c, m1 = z1 * z1 + z2 * z2 + 4 * beta * c, m2 = z2 * (z0 + z1);
      const double root = std::sqrt(std::max(0.0, m0 * m1 - m2 * m2));
      const double scale = 1 / std::sqrt(m0 + m1 + 2 * root);
      const double r[3] = {(m0 + root) * scale, (m1 + root) * scale, m2 * scale};
      const double z[3] = {z0, z1, z2};
      for (int k = 0; k < 3; ++k) {
        const double mandel = k == 2 ? root2 : 1;
        q.pull[k][t] = mandel * (r[k] + z[k]) / (2 * c);
        q.wrinkle[k][t] = mandel * (r[k] - z[k]) / 2;
      }
    }
}

void Assembly::heat(const std::vector<int>& hot_quads, const PanelLoadLines& lines) {
  for (int q : hot_quads)
    for (int c = 0; c < 4; ++c) {
      const int t = 4 * q + c;
      ClothPoint& p = points_[t];
      p.hot = true;
      p.line[0] = lines[t][0];
      p.line[1] = lines[t][1];
      Corners x;
      for (int i = 0; i < 3; ++i) x.row(i) = vector(x_[model_.panel.quads[q].nodes[triangle_corners[c][i]]]);
      Mandel e = green_lagrange(deformation(model_.triangles[t], x)) - model_.looseness;
      e[0] += p.shrink[0];
      e[1] += p.shrink[1];
      Tension fresh;
      if (solve_law(p, e, law_.smoothing, fresh) < 0) continue;
      for (int k = 0; k < 3; ++k) {
        states_[q].pull[k][c] = fresh.pull[k];
        states_[q].wrinkle[k][c] = fresh.wrinkle[k];
      }
    }
}

void Assembly::refresh_hot(const std::vector<int>& hot_quads) {
  for (int q : hot_quads)
    for (int c = 0; c < 4; ++c)
      for (int d = 0; d < 2; ++d) {
        const ClothPoint& p = points_[4 * q + c];
        const double pull = states_[q].pull[d][c];
        states_[q].more_shrink[d][c] = shrink_after(p, d, pull) - p.shrink[d];
        states_[q].more_give[d][c] = give_while_hot(p, d, pull);
      }
}

void Assembly::displace(const Eigen::VectorXd& d, std::vector<Padded>& u) const {
  for (std::size_t i = 0; i < u.size(); ++i) {
    const NodeMap& m = model_.unknowns.nodes[i];
    const double* own = d.data() + m.index[0];
    if (m.is_free()) {
      u[i] = {own[0], own[1], own[2], 0};
    } else {
      const Eigen::Vector3d v = displacement(m, d);
      u[i] = {v[0], v[1], v[2], 0};
    }
  }
}

void Assembly::place_nodes(const Eigen::VectorXd& d) {
  displace(d, x_);
  for (std::size_t i = 0; i < x_.size(); ++i)
    for (int k = 0; k < 3; ++k) x_[i][k] += model_.panel.nodes[i].placed[k];
}

void Assembly::add_nodal(const std::vector<Padded>& nodal, Eigen::VectorXd& r) const {
  for (std::size_t i = 0; i < nodal.size(); ++i) {
    const NodeMap& m = model_.unknowns.nodes[i];
    if (m.is_free())
      for (int k = 0; k < 3; ++k) r[m.index[0] + k] += nodal[i][k];
    else
      for (int k = 0; k < m.count; ++k) r[m.index[k]] += m.column.col(k).dot(vector(nodal[i]));
  }
}

void Assembly::add_frame_force(const Eigen::VectorXd& d, Eigen::VectorXd& r) const {
  for (std::size_t b = 0; b < frame_.size(); ++b) {
    const Beam& beam = model_.panel.beams[b];
    const BeamVector f = frame_[b].lazyProduct(ends_of(beam, d));
    r.segment<6>(6 * beam.from) += f.head<6>();
    r.segment<6>(6 * beam.to) += f.tail<6>();
  }
  for (std::size_t w = 0; w < taut_.size(); ++w) {
    const Wire& wire = model_.wires[w];
    const Beam& beam = model_.panel.beams[wire.beam];
    const double at_rest = wire.at_rest * (taut_[w] ? 1 : slack_stiffness);
    r.segment<6>(6 * beam.from) += at_rest * wire.apart.head<6>();
    r.segment<6>(6 * beam.to) += at_rest * wire.apart.tail<6>();
  }
}

void Assembly::add_frame(const std::vector<BeamMatrix>& beams, double* values) const {
  for (std::size_t b = 0; b < beams.size(); ++b)
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j <= i; ++j) values[model_.beam_positions[b][lower_index(i, j)]] += beams[b](i, j);
}

QuadSums Assembly::assemble() {
  std::fill(force_.begin(), force_.end(), Padded{});
  std::fill(predicted_.begin(), predicted_.end(), Padded{});
  std::fill(blocks_.begin(), blocks_.end(), NodeBlock{});
  const QuadSums sums =
      evaluate_quads(model_.shapes, states_, x_.data(), law_, work_,
                     {force_.data(), predicted_.data(), model_.tangent.of_quads().data(), blocks_.data()});
  std::fill_n(matrix_.valuePtr(), matrix_.nonZeros(), 0.0);
  model_.tangent.add(blocks_, own_blocks_, matrix_.valuePtr());
  add_frame(frame_, matrix_.valuePtr());
  return sums;
}

void Assembly::step(const Eigen::VectorXd& d) {
  displace(d, du_);
  advance_quads(model_.shapes, work_, du_.data(), law_.smoothing, states_);
  for (std::size_t i = 0; i < x_.size(); ++i)
    for (int k = 0; k < 3; ++k) x_[i][k] += du_[i][k];
}

Sparse Assembly::geometric(const Covering& s) {
  Sparse geometric = model_.pattern;
  std::fill_n(geometric.valuePtr(), geometric.nonZeros(), 0.0);
  std::fill(blocks_.begin(), blocks_.end(), NodeBlock{});
  for (std::size_t q = 0; q < model_.shapes.size(); ++q) {
    Eigen::Matrix4d between = Eigen::Matrix4d::Zero();  // of the quad's corners, times the identity
    for (int c = 0; c < 4; ++c) {
      const Eigen::Matrix3d geo = geometric_stiffness(model_.triangles[4 * q + c], s.tension[4 * q + c].pull);
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j) between(triangle_corners[c][i], triangle_corners[c][j]) += geo(i, j);
    }
    for (int k = 0; k < 6; ++k)
      for (int d : {0, 4, 8})
        blocks_[model_.tangent.of_quads()[q][k]][d] += between(quad_pairs[k][0], quad_pairs[k][1]);
  }
  model_.tangent.add(blocks_, own_blocks_, geometric.valuePtr());
  std::vector<BeamMatrix> beams;
  for (std::size_t b = 0; b < frame_.size(); ++b) beams.push_back(frame_[b] - model_.beam_elastic[b]);
  for (std::size_t b = 0; b < frame_.size(); ++b)
    if (!model_.stands(b, s.held)) beams[b].setZero();
  for (std::size_t w = 0; w < taut_.size(); ++w)
    if (!taut_[w]) beams[model_.wires[w].beam].setZero();
  add_frame(beams, geometric.valuePtr());
  clear_held(model_, s, geometric);
  return geometric;
}

}  // namespace evenpull::inline solver
