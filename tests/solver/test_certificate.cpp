// What vouches for an equilibrium: the duality gap and the bound on the tension error that follows from it
// (docs/model.md, sections 2 and 9).
#include "solver/statement/errors.hpp"
#include "tests/solver/cloth_pieces.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// rms over the cloth's area of the distance between two tension fields [N/m], Frobenius.
double rms_apart(const Model& m, const Covering& a, const Covering& b) {
  double sum = 0;
  for (std::size_t t = 0; t < a.tension.size(); ++t)
    sum += m.triangles[t].weight * (a.tension[t].pull - b.tension[t].pull).squaredNorm();
  return std::sqrt(sum / m.cloth_area);
}

SolveOptions smoothed(double beta) {
  SolveOptions a;
  a.force_tolerance = 1e-5;
  a.tension_tolerance = 1e-2;
  a.smoothing = beta;
  return a;
}

// First stage, half of the first pass done: some cloth tight, some puckered, some loose.
struct HalfDone {
  Job job;
  Covering state;
  HalfDone() : job(one_zone_a_bay(sample::aileron(4, 1.2)), 150) {
    state = job.ironing.begin();
    const std::vector<int> order = alternating(job.panel());
    REQUIRE(work(job, state, {order.begin(), order.begin() + 3}, 250, 1));
  }
  int next() const { return alternating(job.panel())[3]; }
};

// Down a path of smoothings, so that the sharp ones have a good start.
SolveReport iron_next(const HalfDone& h, const SolveOptions& a, Covering& answer) {
  const PanelLoadLines lines = lines_of(h.job.model, h.state, h.next(), 250, 1);
  answer = h.state;
  for (double beta = 1e-2;; beta *= 0.1) {
    SolveOptions step = a;
    step.smoothing = std::max(beta, a.smoothing);
    Equilibrium e(h.job.model, step);
    const SolveReport r = e.solve_from(h.state, answer, h.job.panel().zones[h.next()].quads, lines);
    if (!r.converged || step.smoothing <= a.smoothing) return r;
  }
}

}  // namespace

TEST_CASE("the certificate bounds the distance to a far sharper answer") {
  const HalfDone h;
  Covering sharp;
  const SolveReport exact = iron_next(h, smoothed(1e-7), sharp);
  REQUIRE(exact.converged);
  for (double beta : {1e-2, 1e-3, 1e-4, 1e-5}) {
    CAPTURE(beta);
    Covering answer;
    const SolveReport r = iron_next(h, smoothed(beta), answer);
    REQUIRE(r.converged);
    // The sharper answer is itself only known to its own bound.
    CHECK(rms_apart(h.job.model, answer, sharp) <= r.tension_bound + exact.tension_bound);
    // Never worse than loose cloth all over would make it, friction aside.
    CHECK(r.tension_bound < 1.05 * std::sqrt(4 * beta / h.job.model.softest) + 1);
  }
}

TEST_CASE("the gap is no smaller than the difference between the energies of shape and of tension") {
  const HalfDone h;
  for (double beta : {1e-3, 1e-5}) {
    CAPTURE(beta);
    Covering s;
    const SolveReport r = iron_next(h, smoothed(beta), s);
    REQUIRE(r.converged);
    const Model& m = h.job.model;
    const PanelLoadLines lines = lines_of(m, h.state, h.next(), 250, 1);
    const double sharper = std::max(1e-3 * beta, 1e-6);
    double gap = 0;
    for (int t = 0; t < static_cast<int>(m.triangles.size()); ++t) {
      ClothPoint p = cold_point(m.compliance);
      for (int d = 0; d < 2; ++d) p.shrink[d] = h.state.shrink[t][d];
      p.hot = m.panel.quads[t / 4].zone == h.next();
      if (p.hot) p.line[0] = lines[t][0], p.line[1] = lines[t][1];
      Corners x;
      for (int i = 0; i < 3; ++i) {
        const int n = m.panel.quads[t / 4].nodes[triangle_corners[t % 4][i]];
        x.row(i) = (m.panel.nodes[n].placed + displacement(m.unknowns.nodes[n], s.unknowns)).transpose();
      }
      const Mandel e =
          green_lagrange(deformation(m.triangles[t], x)) - m.looseness + Mandel(p.shrink[0], p.shrink[1], 0);
      // W by the law itself, sharper by far: its own gap is below twice its smoothing.
      Tension fine;
      REQUIRE(solve_law(p, e, sharper, fine) > 0);
      gap += m.triangles[t].weight * (energy(p, e, fine.pull) - energy(p, e, s.tension[t].pull));
    }
    // The tension's share of the friction gap is not in here, so this is a lower bound.
    CHECK(gap >= 0);
    CHECK(gap <= r.gap * (1 + 1e-6) + 1e-12);
    // And the certificate is not loose either: within a factor of three of it on cloth that is partly slack.
    CHECK(r.gap <= 3 * gap + 1e-5);
  }
}

TEST_CASE("with certified accuracy no step of a whole job is less certain than promised") {
  const Case c = one_zone_a_bay(sample::light_rudder(4));
  const Model m(c, coarse(150));
  const double certified = certified_tension(c);
  Job job(c, 150, certified_options(m));
  Covering s = job.ironing.begin();
  for (double stage : {250.0, 300.0}) {
    for (int z : centre_out(job.panel())) {
      const StepReport r = job.ironing.iron(s, z, held_pass(job.model, true_temperature(stage), 1), "step");
      REQUIRE(r.outcome == Outcome::settled);
      CHECK(r.solve.tension_bound <= certified);
    }
    const StepReport r = job.ironing.settle(s, "end");
    CHECK(r.solve.tension_bound <= certified);
    CHECK(r.solve.gap <= 1e-4 * r.solve.energy);
    CHECK(r.solve.energy > 0);
  }
  CHECK(job.ironing.bound_on_the_way() <= certified);
}

TEST_CASE("a certified run and an ordinary one agree within the ordinary one's bound") {
  const Case c = one_zone_a_bay(sample::aileron(4, 1.2));
  const Model m(c, coarse(150));
  Job plain(c, 150), certified(c, 150, certified_options(m));
  Covering a = plain.ironing.begin(), b = certified.ironing.begin();
  for (int z : centre_out(plain.panel())) {
    const PassHeat heat = held_pass(plain.model, true_temperature(250), 1);
    REQUIRE(plain.ironing.iron(a, z, heat, "step").outcome == Outcome::settled);
    REQUIRE(certified.ironing.iron(b, z, heat, "step").outcome == Outcome::settled);
  }
  CHECK(rms_apart(m, a, b) <= plain.ironing.bound_on_the_way() + certified_tension(c));
}

TEST_CASE("an answer that misses its certificate stops the run") {
  const Case c = one_zone_a_bay(sample::aileron(4, 1.2));
  SolveOptions a;
  a.tension_bound = 1e-12;  // N/m: out of reach of double precision
  Job job(c, 150, a);
  Covering s = job.ironing.begin();
  try {
    job.ironing.iron(s, 0, held_pass(job.model, true_temperature(250), 1), "250 F, pass 1, T1");
    FAIL("an uncertain answer was accepted");
  } catch (const NotConverged& e) {
    CHECK(e.where.what == "250 F, pass 1, T1");
    CHECK(e.missed.value > e.missed.allowed);
    CHECK(e.missed.unit.size() + e.missed.what.size() > 8);
    CHECK(!e.advice.empty());
  }
}
