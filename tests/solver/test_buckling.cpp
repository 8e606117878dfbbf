// The buckling factor of a covered panel (docs/model.md, section 5). Columns in closed form: tests/published.
#include "tests/solver/small_job.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// All pulls and the members' compression scaled, the shape kept.
Covering scaled(Covering s, double factor) {
  for (Tension& t : s.tension) t.pull *= factor, t.wrinkle /= factor;
  for (double& a : s.axial) a *= factor;
  return s;
}

Covering after_first_stage(Job& j) {
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, alternating(j.panel()), 250, 1));
  REQUIRE(j.ironing.settle(s, "settled").outcome == Outcome::settled);
  return s;
}

// The same eigenproblem put together another way: densely, triangle by triangle and beam by beam, free unknowns only.
struct Dense {
  Eigen::MatrixXd tangent, geometric;
  std::vector<int> free;
};

Dense dense_problem(const Model& m, const Covering& s, Equilibrium& e) {
  const int n = m.unknowns.count;
  Eigen::MatrixXd k = e.tangent(s).toDense();
  k = k.selfadjointView<Eigen::Lower>();
  Eigen::MatrixXd g = Eigen::MatrixXd::Zero(n, n);
  for (std::size_t t = 0; t < m.triangles.size(); ++t) {
    const Eigen::Matrix3d between = geometric_stiffness(m.triangles[t], s.tension[t].pull);
    for (int a = 0; a < 3; ++a)
      for (int b = 0; b < 3; ++b) {
        const auto node = [&](int i) -> const NodeMap& {
          return m.unknowns.nodes[m.panel.quads[t / 4].nodes[triangle_corners[t % 4][i]]];
        };
        for (int i = 0; i < node(a).count; ++i)
          for (int j = 0; j < node(b).count; ++j)
            g(node(a).index[i], node(b).index[j]) += between(a, b) * node(a).column.col(i).dot(node(b).column.col(j));
      }
  }
  for (std::size_t b = 0; b < m.beams.size(); ++b)
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j < 12; ++j) {
        const auto at = [&](int c) { return c < 6 ? 6 * m.panel.beams[b].from + c : 6 * m.panel.beams[b].to + c - 6; };
        g(at(i), at(j)) += s.axial[b] * m.beam_geometric[b](i, j);
      }
  Dense d;
  std::vector<char> held(n, 0);
  for (int i : m.held[static_cast<int>(s.held)]) held[i] = 1;
  for (int i = 0; i < n; ++i)
    if (!held[i]) d.free.push_back(i);
  d.tangent = k(d.free, d.free);
  d.geometric = g(d.free, d.free);
  return d;
}

int negative_pivots(const Dense& d, double factor) {
  const Eigen::MatrixXd k = d.tangent + (factor - 1) * d.geometric;
  return static_cast<int>((Eigen::LDLT<Eigen::MatrixXd>(k).vectorD().array() < 0).count());
}

}  // namespace

TEST_CASE("the buckling factor is the least of the dense eigenproblem, whichever supports hold the panel") {
  // Two bays alike and three alike: pairs of modes that differ by little are there to be missed.
  for (int bays : {2, 3})
    for (Held held : {Held::while_ironed, Held::in_use}) {
      CAPTURE(bays, static_cast<int>(held));
      Job j(one_zone_a_bay(sample::light_rudder(bays)), 100);
      Covering s = after_first_stage(j);
      if (held == Held::in_use) REQUIRE(j.ironing.release(s, "released").outcome == Outcome::settled);
      Equilibrium e(j.model, {});
      const Buckling b = e.buckling(s);
      const Dense d = dense_problem(j.model, s, e);
      const Eigen::VectorXd mu =
          Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd>(-d.geometric, d.tangent, Eigen::EigenvaluesOnly)
              .eigenvalues();
      CHECK(b.factor == Approx(1 + 1 / mu[mu.size() - 1]).epsilon(1e-7));
      CHECK(b.least_proven);
      CHECK(b.residual < 1e-7);
      // Sylvester: no pivot below zero up to the factor, one beyond it.
      CHECK(negative_pivots(d, 1 + (b.factor - 1) * (1 - 2 * least_margin)) == 0);
      CHECK(negative_pivots(d, 1 + (b.factor - 1) * (1 + 2 * least_margin)) == 1);
      // The eigenpair itself: what is out of balance, against each of the two parts that cancel.
      const Eigen::VectorXd mode = b.mode(d.free), bends = d.tangent * mode,
                            pushes = (b.factor - 1) * d.geometric * mode;
      CHECK((bends + pushes).norm() < 1e-6 * bends.norm());
    }
}

TEST_CASE("a mode that the search cannot see comes to light in the proof") {
  // Springs that do not know of each other: T = 1, K_G = -mu, so the factors are 1 + 1/mu. The search begins without
  // any part of the first of them and never gets one.
  constexpr int n = 12;
  Sparse tangent(n, n), geometric(n, n);
  for (int i = 0; i < n; ++i) {
    tangent.insert(i, i) = 1;
    geometric.insert(i, i) = -0.5 / (i + 1);
  }
  tangent.makeCompressed();
  geometric.makeCompressed();
  const auto analysis = LinearSolver::study(tangent);
  LinearSolver factor;
  factor.use(analysis);
  REQUIRE(factor.factorise(tangent));
  const std::vector<int> held;
  Eigen::VectorXd start = Eigen::VectorXd::Ones(n);
  start[0] = 0;
  const Buckling b = least_buckling({tangent, geometric, held, analysis}, factor, start);
  CHECK(b.factor == Approx(3).epsilon(1e-9));
  CHECK(b.least_proven);
  CHECK(b.residual < 1e-8);
  CHECK(std::abs(b.mode[0]) == Approx(1).epsilon(1e-6));
}

TEST_CASE("a buckling shape has one size and one sign") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  const Covering s = after_first_stage(j);
  Equilibrium e(j.model, {}), again(j.model, {});
  const Eigen::VectorXd mode = e.buckling(s).mode;
  CHECK(mode == again.buckling(s).mode);
  double length = 0, most = 0;
  const auto take = [&](const Eigen::Vector3d& u) {
    length = std::max(length, u.norm());
    for (int k = 0; k < 3; ++k)
      if (std::abs(u[k]) > std::abs(most)) most = u[k];
  };
  for (std::size_t i = 0; i < j.panel().joints.size(); ++i) take(mode.segment<3>(6 * static_cast<int>(i)));
  for (const NodeMap& n : j.model.unknowns.nodes) take(displacement(n, mode));
  CHECK(length == Approx(1));
  CHECK(most > 0);
}

TEST_CASE("the buckling factor is above one in every accepted state and falls as the pull grows") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  Covering s = j.ironing.begin();
  double last = INFINITY;
  for (double f : {250.0, 300.0}) {
    REQUIRE(work(j, s, alternating(j.panel()), f, 1));
    REQUIRE(j.ironing.settle(s, "settled").outcome == Outcome::settled);
    const double factor = j.ironing.buckling(s).factor;
    CHECK(factor > 1);
    CHECK(factor < last);
    last = factor;
  }
}

TEST_CASE("twice the pull, half the buckling factor") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  const Covering s = after_first_stage(j);
  const double one = j.ironing.buckling(s).factor;
  REQUIRE(one > 3);  // room for twice the pull
  CHECK(j.ironing.buckling(scaled(s, 2)).factor == Approx(one / 2).epsilon(0.1));
  CHECK(j.ironing.buckling(scaled(s, 0.5)).factor == Approx(one * 2).epsilon(0.1));
}

TEST_CASE("cloth without pull buckles nothing") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  CHECK(j.ironing.buckling(laid_on(j.model)).factor > 1e4);
}

TEST_CASE("the buckled shape is stiff by nothing: elastic and geometric parts cancel on it") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  const Covering s = after_first_stage(j);
  Equilibrium e(j.model, {});
  const Buckling b = e.buckling(s);
  REQUIRE(b.mode.size() == j.model.unknowns.count);
  for (int i : j.model.held[0]) CHECK(std::abs(b.mode[i]) < 1e-12);
  CHECK(b.factor == Approx(j.ironing.buckling(s).factor).epsilon(0.01));
  CHECK(b.residual < 1e-6);
  CHECK(b.least_proven);
}

TEST_CASE("a frame far too light is said to buckle, not solved as if it stood") {
  Case c = one_zone_a_bay(sample::light_rudder(3));
  // A tube of straw, invented.
  c.span_members[1].make.shape.outside_diameter = 4e-3;
  c.span_members[1].make.shape.wall = 0.2e-3;
  for (Rib& r : c.ribs) r.make.shape.outside_diameter = 4e-3, r.make.shape.wall = 0.2e-3;
  Job j(c, 150);
  Covering s = j.ironing.begin();
  bool stood = true;
  for (double f : {250.0, 300.0, 350.0}) {
    stood = stood && work(j, s, alternating(j.panel()), f, 1);
    stood = stood && j.ironing.settle(s, "settled").outcome == Outcome::settled;
    if (!stood) break;
  }
  CHECK((!stood || j.ironing.buckling(s).factor < 2));
}
