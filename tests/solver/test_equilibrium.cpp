// The answer of one step, judged without the solver's own book-keeping (docs/model.md, sections 2, 5, 6 and 9).
#include "tests/solver/chance.hpp"
#include "tests/solver/cloth_pieces.hpp"
#include "tests/solver/small_job.hpp"
#include "tests/support/reference_panel.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// Strain less looseness, plus the shrink that was there before the step.
Mandel cold_strain(const Model& m, const Covering& before, const Eigen::VectorXd& d, int t) {
  Corners x;
  for (int i = 0; i < 3; ++i) {
    const int n = m.panel.quads[t / 4].nodes[triangle_corners[t % 4][i]];
    x.row(i) = (m.panel.nodes[n].placed + displacement(m.unknowns.nodes[n], d)).transpose();
  }
  return green_lagrange(deformation(m.triangles[t], x)) - m.looseness +
         Mandel(before.shrink[t][0], before.shrink[t][1], 0);
}

ClothPoint point(const Model& m, const Covering& before, int zone, const PanelLoadLines& lines, int t) {
  ClothPoint p = cold_point(m.compliance);
  p.shrink[0] = before.shrink[t][0];
  p.shrink[1] = before.shrink[t][1];
  p.hot = m.panel.quads[t / 4].zone == zone;
  if (p.hot) p.line[0] = lines[t][0], p.line[1] = lines[t][1];
  return p;
}

BeamVector ends(const Model& m, std::size_t b, const Eigen::VectorXd& d) {
  BeamVector u;
  u << d.segment<6>(6 * m.panel.beams[b].from), d.segment<6>(6 * m.panel.beams[b].to);
  return u;
}

// Without what a wire pulls along itself, which is no matrix (wire_pull).
BeamMatrix beam(const Model& m, const Covering& answer, std::size_t b) {
  for (const Wire& w : m.wires)
    if (w.beam == static_cast<int>(b)) return answer.axial[b] * string_stiffness(m.beams[b]);
  return m.beam_elastic[b] + beam_geometric_stiffness(m.beams[b], answer.axial[b]);
}

// N, and N^2/2k, of a wire; slack it keeps the share of its stiffness that the solver leaves it.
struct WirePull {
  double pull = 0, energy = 0;
};
WirePull wire_pull(const Model& m, const Wire& w, const Eigen::VectorXd& d) {
  const double n = w.pull(m.panel, d), share = n > 0 ? 1 : slack_stiffness;
  return {share * n, share * n * n / (2 * w.rate)};
}

// A pocket, ribs on gussets, wires.
Case pocketed() { return reference::small_panels().back().the_case; }

// Out-of-balance force of every unknown, put together anew from the pulls of the answer [N].
Eigen::VectorXd out_of_balance(const Model& m, const Covering& s) {
  std::vector<Eigen::Vector3d> nodal(m.panel.nodes.size(), Eigen::Vector3d::Zero());
  for (int t = 0; t < static_cast<int>(m.triangles.size()); ++t) {
    Corners x;
    const auto& quad = m.panel.quads[t / 4].nodes;
    for (int i = 0; i < 3; ++i) {
      const int n = quad[triangle_corners[t % 4][i]];
      x.row(i) = (m.panel.nodes[n].placed + displacement(m.unknowns.nodes[n], s.unknowns)).transpose();
    }
    const Eigen::Matrix<double, 9, 1> f = m.triangles[t].weight *
                                          strain_matrix(m.triangles[t], deformation(m.triangles[t], x)).transpose() *
                                          s.tension[t].pull;
    for (int i = 0; i < 3; ++i) nodal[quad[triangle_corners[t % 4][i]]] += f.segment<3>(3 * i);
  }
  Eigen::VectorXd r = Eigen::VectorXd::Zero(m.unknowns.count);
  for (std::size_t n = 0; n < nodal.size(); ++n) {
    const NodeMap& map = m.unknowns.nodes[n];
    for (int k = 0; k < map.count; ++k) r[map.index[k]] += map.column.col(k).dot(nodal[n]);
    CHECK((nodal[n] - s.nodal_force[n]).norm() < 1e-6);
  }
  for (std::size_t b = 0; b < m.beams.size(); ++b) {
    const BeamVector f = beam(m, s, b) * ends(m, b, s.unknowns);
    r.segment<6>(6 * m.panel.beams[b].from) += f.head<6>();
    r.segment<6>(6 * m.panel.beams[b].to) += f.tail<6>();
  }
  for (const Wire& w : m.wires) {
    const BeamVector f = wire_pull(m, w, s.unknowns).pull * w.apart;
    r.segment<6>(6 * m.panel.beams[w.beam].from) += f.head<6>();
    r.segment<6>(6 * m.panel.beams[w.beam].to) += f.tail<6>();
  }
  for (std::size_t i = 0; i < m.unknowns.sliding.size(); ++i)
    for (int k = 0; k < m.unknowns.sliding[i].unknowns; ++k)
      r[m.unknowns.sliding[i].first_unknown + k] += s.friction[i][k];
  for (int i : m.held[static_cast<int>(s.held)]) r[i] = 0;
  return r;
}

// Smoothed energy of cloth and frame less the work of the friction force; that and the members' forces are held as they
// are [N m].
double potential(const Model& m, const Covering& before, const Covering& answer, int zone, const PanelLoadLines& lines,
                 const Eigen::VectorXd& d, double beta) {
  double w = 0;
  for (int t = 0; t < static_cast<int>(m.triangles.size()); ++t)
    w += m.triangles[t].weight * smoothed_energy(point(m, before, zone, lines, t), cold_strain(m, before, d, t), beta);
  for (std::size_t b = 0; b < m.beams.size(); ++b) {
    const BeamVector u = ends(m, b, d);
    w += 0.5 * u.dot(beam(m, answer, b) * u);
  }
  for (const Wire& wire : m.wires) w += wire_pull(m, wire, d).energy;
  for (std::size_t i = 0; i < m.unknowns.sliding.size(); ++i)
    for (int k = 0; k < m.unknowns.sliding[i].unknowns; ++k)
      w += answer.friction[i][k] * d[m.unknowns.sliding[i].first_unknown + k];
  return w;
}

// A job in the middle of its first pass: top root zone and bottom root zone done.
struct Begun {
  Job job;
  Covering before;
  explicit Begun(const Case& c, const SolveOptions& a) : job(c, 150, a) {
    before = job.ironing.begin();
    REQUIRE(work(job, before, {0, job.panel().zone(Side::bottom, 0, 0)}, 250, 1));
  }
};

Eigen::VectorXd shaken(const Model& m, const Eigen::VectorXd& d, Chance& chance, double size) {
  Eigen::VectorXd out = d + chance.vector(d.size(), size);
  for (int i : m.held[0]) out[i] = d[i];
  return out;
}

}  // namespace

TEST_CASE("at the answer every force is in balance") {
  for (const Case& c : {sample::aileron(3, 0.9), sample::light_rudder(3), pocketed()}) {
    Begun b(one_zone_a_bay(c), {});
    Covering s = b.before;
    REQUIRE(work(b.job, s, {1}, 250, 1));
    if (!b.job.model.wires.empty()) CHECK(std::count(s.axial.begin(), s.axial.end(), 0) > 0);  // some are slack
    // The stated tolerance, and as much again for the moments that the offsets make of it.
    CHECK(out_of_balance(b.job.model, s).cwiseAbs().maxCoeff() <= 2 * SolveOptions().force_tolerance);
    CHECK(b.job.ironing.worst_residual() <= SolveOptions().force_tolerance);
  }
}

TEST_CASE("the pulls at the answer are those of the cloth law at its strain") {
  Begun b(one_zone_a_bay(sample::aileron(3, 0.9)), tight());
  const PanelLoadLines lines = lines_of(b.job.model, b.before, 1, 250, 1);
  Covering s = b.before;
  REQUIRE(work(b.job, s, {1}, 250, 1));
  for (int t = 0; t < static_cast<int>(b.job.model.triangles.size()); ++t) {
    const ClothPoint p = point(b.job.model, b.before, 1, lines, t);
    const Mandel n = law(p, cold_strain(b.job.model, b.before, s.unknowns, t), 1e-3).pull;
    CHECK((n - s.tension[t].pull).norm() < 0.05);
    for (int d = 0; d < 2; ++d) CHECK(s.shrink[t][d] == Approx(shrink_after(p, d, n[d])).margin(1e-5));
  }
}

TEST_CASE("no shape near the answer has less energy") {
  for (const Case& c : {sample::aileron(3, 0.9), pocketed()}) {
    Begun b(one_zone_a_bay(c), tight());
    const Model& m = b.job.model;
    const PanelLoadLines lines = lines_of(m, b.before, 1, 250, 1);
    Covering s = b.before;
    Equilibrium e(m, tight());
    REQUIRE(e.solve(s, m.panel.zones[1].quads, lines).converged);
    const double least = potential(m, b.before, s, 1, lines, s.unknowns, 1e-3);
    Chance chance(71);
    for (double size : {1e-5, 1e-4, 1e-3})
      for (int i = 0; i < 4; ++i)
        CHECK(potential(m, b.before, s, 1, lines, shaken(m, s.unknowns, chance, size), 1e-3) >= least - 1e-9);
  }
}

TEST_CASE("the answer does not depend on the first guess") {
  for (const Case& c : {sample::aileron(3, 0.9), sample::light_rudder(3), pocketed()}) {
    Begun b(one_zone_a_bay(c), tight());
    const Model& m = b.job.model;
    const PanelLoadLines lines = lines_of(m, b.before, 1, 250, 1);
    Equilibrium e(m, tight());
    Covering plain = b.before;
    REQUIRE(e.solve_from(b.before, plain, m.panel.zones[1].quads, lines).converged);
    Chance chance(72);
    for (int i = 0; i < 3; ++i) {
      Covering guess = b.before;
      guess.unknowns = shaken(m, guess.unknowns, chance, 2e-4);
      for (Tension& t : guess.tension) {
        const double f = chance.between(0.3, 3);
        t.pull *= f;
        t.wrinkle *= chance.between(0.3, 3);
      }
      REQUIRE(e.solve_from(b.before, guess, m.panel.zones[1].quads, lines).converged);
      CHECK(pull_apart(guess, plain) < 0.05);  // N/m
    }
  }
}

TEST_CASE("what was solved before with the same work space changes no digit") {
  // Much friction round the edge: thresholds are hastened, and a solve takes tens of iterations.
  Case c = sample::light_rudder(3);
  c.blanket.edge_friction = 1.2, c.blanket.wrap_angle = 3.4;
  Begun b(one_zone_a_bay(c), tight());
  const Model& m = b.job.model;
  Equilibrium used(m, tight());
  for (int temperature : {250, 300, 350})
    for (int zone = 0; zone < static_cast<int>(m.panel.zones.size()); ++zone) {
      const PanelLoadLines lines = lines_of(m, b.before, zone, temperature, 1);
      Covering by_used = b.before, by_fresh = b.before;
      Equilibrium fresh(m, tight());
      const SolveReport a = used.solve(by_used, m.panel.zones[zone].quads, lines);
      const SolveReport f = fresh.solve(by_fresh, m.panel.zones[zone].quads, lines);
      CHECK(a.iterations == f.iterations);
      CHECK(by_used.unknowns == by_fresh.unknowns);
    }
}

TEST_CASE("solving again with nothing hot changes nothing") {
  Begun b(one_zone_a_bay(sample::aileron(3, 0.9)), tight());
  Equilibrium e(b.job.model, tight());
  // The first one takes up the members' compression of the last step.
  REQUIRE(e.solve(b.before, {}, PanelLoadLines(b.job.model.triangles.size())).converged);
  Covering again = b.before;
  REQUIRE(e.solve(again, {}, PanelLoadLines(b.job.model.triangles.size())).converged);
  CHECK(pull_apart(again, b.before) < 0.05);
  CHECK(again.shrink == b.before.shrink);
}

TEST_CASE("a step that fails leaves the state as it was") {
  SolveOptions hopeless = tight();
  hopeless.most_iterations = 1;
  Begun b(one_zone_a_bay(sample::aileron(3, 0.9)), {});
  Equilibrium e(b.job.model, hopeless);
  Covering s = b.before;
  CHECK_FALSE(e.solve(s, b.job.panel().zones[1].quads, lines_of(b.job.model, s, 1, 350, 1)).converged);
  CHECK(s.unknowns == b.before.unknowns);
  CHECK(s.shrink == b.before.shrink);
  CHECK(pull_apart(s, b.before) == 0);
}
