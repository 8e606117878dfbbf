// The quick way through a quad and into the tangent does what the plain formulas do, one triangle at a time.
#include "solver/cloth/quad_kernel.hpp"
#include "solver/equilibrium/equilibrium.hpp"
#include "tests/solver/chance.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// A covering out of balance: nodes moved a little, any pull and wrinkle strain, some of it as while hot.
struct Disturbed {
  Model m{sample::aileron(), {150}};
  Eigen::VectorXd unknowns;
  std::vector<QuadState> states{m.shapes.size()};
  std::vector<Padded> x{m.panel.nodes.size()}, force{x.size()}, predicted{x.size()};
  std::vector<QuadWork> work{m.shapes.size()};
  std::vector<NodeBlock> blocks{static_cast<std::size_t>(m.tangent.pairs())}, own;
  QuadLaw law;
  QuadSums sums;

  Disturbed() {
    Chance chance(21);
    unknowns = chance.vector(m.unknowns.count, 1e-3);
    for (std::size_t i = 0; i < x.size(); ++i) {
      const Eigen::Vector3d p = m.panel.nodes[i].placed + displacement(m.unknowns.nodes[i], unknowns);
      x[i] = {p[0], p[1], p[2], 0};
      force[i] = predicted[i] = {};
    }
    for (QuadState& s : states)
      for (int t = 0; t < 4; ++t) {
        s.pull[0][t] = chance.between(1, 400);
        s.pull[1][t] = chance.between(1, 400);
        s.pull[2][t] = chance.between(-1, 1) * std::sqrt(s.pull[0][t] * s.pull[1][t]);
        s.wrinkle[0][t] = chance.between(1e-5, 1e-2);
        s.wrinkle[1][t] = chance.between(1e-5, 1e-2);
        s.wrinkle[2][t] = chance.between(-1, 1) * std::sqrt(s.wrinkle[0][t] * s.wrinkle[1][t]);
        for (int d = 0; d < 2; ++d) s.shift[d][t] = chance.between(-0.02, 0.05);
      }
    for (std::size_t q = 0; q < states.size(); q += 3)
      for (int t = 0; t < 4; ++t)
        for (int d = 0; d < 2; ++d) {
          states[q].more_shrink[d][t] = chance.between(0, 0.01);
          states[q].more_give[d][t] = chance.between(0, 1e-4);
        }
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j <= i; ++j) law.compliance[lower_index(i, j)] = m.compliance(i, j);
    law.softest = m.softest;
    law.smoothing = 1e-3;
    sums = evaluate_quads(m.shapes, states, x.data(), law, work,
                          {force.data(), predicted.data(), m.tangent.of_quads().data(), blocks.data()});
  }

  Corners corners(int t) const {
    Corners c;
    for (int i = 0; i < 3; ++i) {
      const Padded& p = x[m.panel.quads[t / 4].nodes[triangle_corners[t % 4][i]]];
      c.row(i) << p[0], p[1], p[2];
    }
    return c;
  }
  Tension tension(int t) const {
    Tension out;
    for (int k = 0; k < 3; ++k) {
      out.pull[k] = states[t / 4].pull[k][t % 4];
      out.wrinkle[k] = states[t / 4].wrinkle[k][t % 4];
    }
    return out;
  }
  // The same law by fabric_law.hpp: a line that is always moving stands for what a hot triangle gives.
  Linearised linear(int t) const {
    const QuadState& s = states[t / 4];
    const Tension now = tension(t);
    ClothPoint p;
    p.cold = &m.compliance;
    p.hot = s.more_give[0][t % 4] > 0;
    for (int d = 0; d < 2; ++d) {
      p.line[d].b = s.more_give[d][t % 4];
      p.line[d].a = s.more_shrink[d][t % 4] + p.line[d].b * now.pull[d];
    }
    Mandel e = green_lagrange(deformation(m.triangles[t], corners(t)));
    for (int d = 0; d < 2; ++d) e[d] += s.shift[d][t % 4];
    return linearise(p, e, now, law.smoothing);
  }
};

}  // namespace

TEST_CASE("four triangles at once are linearised as one by one") {
  const Disturbed c;
  double change = 0, gap = 0;
  for (int t = 0; t < static_cast<int>(c.m.triangles.size()); ++t) {
    const Linearised lin = c.linear(t);
    const QuadWork& w = c.work[t / 4];
    for (int i = 0; i < 3; ++i) {
      for (int j = 0; j <= i; ++j)
        REQUIRE(w.stiffness[lower_index(i, j)][t % 4] ==
                Approx(lin.stiffness(i, j)).epsilon(1e-9).margin(1e-9 * lin.stiffness.norm()));
      REQUIRE(w.correction[i][t % 4] == Approx(lin.correction[i]).epsilon(1e-9).margin(1e-9 * lin.correction.norm()));
    }
    change = std::max(change, lin.correction.cwiseAbs().maxCoeff());
    const Tension now = c.tension(t);
    gap += c.m.triangles[t].weight * (now.pull.dot(now.wrinkle) + lin.mismatch.squaredNorm() / c.m.softest);
  }
  CHECK(c.sums.tension_change == Approx(change).epsilon(1e-9));
  CHECK(c.sums.gap == Approx(gap).epsilon(1e-9));
}

TEST_CASE("a step moves four triangles at once as one by one") {
  Disturbed c;
  Chance chance(22);
  const Eigen::VectorXd step = chance.vector(c.m.unknowns.count, 1e-3);
  std::vector<Padded> du(c.x.size());
  for (std::size_t i = 0; i < du.size(); ++i) {
    const Eigen::Vector3d v = displacement(c.m.unknowns.nodes[i], step);
    du[i] = {v[0], v[1], v[2], 0};
  }
  std::vector<Tension> wanted;
  for (int t = 0; t < static_cast<int>(c.m.triangles.size()); ++t) {
    const Linearised lin = c.linear(t);
    Eigen::Matrix<double, 9, 1> move;
    for (int i = 0; i < 3; ++i) {
      const Padded& v = du[c.m.panel.quads[t / 4].nodes[triangle_corners[t % 4][i]]];
      move.segment<3>(3 * i) << v[0], v[1], v[2];
    }
    const Triangle& tri = c.m.triangles[t];
    const Mandel strain = strain_matrix(tri, deformation(tri, c.corners(t))) * move;
    wanted.push_back(c.tension(t));
    advance(wanted.back(), lin.stiffness * strain + lin.correction, c.law.smoothing);
  }
  advance_quads(c.m.shapes, c.work, du.data(), c.law.smoothing, c.states);
  for (int t = 0; t < static_cast<int>(wanted.size()); ++t) {
    const Tension now = c.tension(t);
    REQUIRE((now.pull - wanted[t].pull).norm() < 1e-8 * wanted[t].pull.norm());
    REQUIRE((now.wrinkle - wanted[t].wrinkle).norm() < 1e-8 * wanted[t].wrinkle.norm());
  }
}

TEST_CASE("forces and tangent of the cloth are those of its triangles, tied nodes included") {
  Disturbed c;
  const int n = c.m.unknowns.count;
  Eigen::MatrixXd wanted = Eigen::MatrixXd::Zero(n, n);
  std::vector<Eigen::Vector3d> force(c.x.size(), Eigen::Vector3d::Zero()), predicted = force;
  for (int t = 0; t < static_cast<int>(c.m.triangles.size()); ++t) {
    const Triangle& tri = c.m.triangles[t];
    const auto f = deformation(tri, c.corners(t));
    const auto b = strain_matrix(tri, f);
    const Linearised lin = c.linear(t);
    const Mandel pull = c.tension(t).pull;
    const Eigen::Matrix3d geo = geometric_stiffness(tri, pull);
    Eigen::Matrix<double, 9, 9> k = tri.weight * b.transpose() * lin.stiffness * b;
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j < 3; ++j) k.block<3, 3>(3 * i, 3 * j) += geo(i, j) * Eigen::Matrix3d::Identity();
    const Eigen::Matrix<double, 9, 1> now = tri.weight * b.transpose() * pull,
                                      next = tri.weight * b.transpose() * (pull + lin.correction);
    for (int i = 0; i < 3; ++i) {
      const int node = c.m.panel.quads[t / 4].nodes[triangle_corners[t % 4][i]];
      const NodeMap& a = c.m.unknowns.nodes[node];
      force[node] += now.segment<3>(3 * i);
      predicted[node] += next.segment<3>(3 * i);
      for (int j = 0; j < 3; ++j) {
        const NodeMap& o = c.m.unknowns.nodes[c.m.panel.quads[t / 4].nodes[triangle_corners[t % 4][j]]];
        for (int p = 0; p < a.count; ++p)
          for (int q = 0; q < o.count; ++q)
            wanted(a.index[p], o.index[q]) += a.column.col(p).dot(k.block<3, 3>(3 * i, 3 * j) * o.column.col(q));
      }
    }
  }
  for (std::size_t i = 0; i < force.size(); ++i)
    for (int k = 0; k < 3; ++k) {
      REQUIRE(c.force[i][k] == Approx(force[i][k]).margin(1e-9));
      REQUIRE(c.predicted[i][k] == Approx(predicted[i][k]).margin(1e-6));
    }
  Sparse tangent = c.m.pattern;
  c.m.tangent.add(c.blocks, c.own, tangent.valuePtr());
  const Eigen::MatrixXd got = Eigen::MatrixXd(tangent);
  const double size = wanted.cwiseAbs().maxCoeff();
  for (int j = 0; j < n; ++j)
    for (int i = j; i < n; ++i) REQUIRE(std::abs(got(i, j) - wanted(i, j)) < 1e-11 * size);
}
