// Cloth and friction at the ends of what cases state: certified as any other, with the answers that similarity and easier
// ways ask for (docs/model.md, sections 2, 6 and 9).
#include "solver/equilibrium/giving_up.hpp"
#include "solver/statement/errors.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

struct Worked {
  Readings readings;
  double bound = 0;  ///< N/m, worst on the way
};

// Two passes of the first stage, settled.
Worked worked(const Case& c, const SolveOptions& a, int passes = 2) {
  Job job(c, 150, a);
  Covering s = job.ironing.begin();
  for (int pass = 0; pass < passes; ++pass) REQUIRE(work(job, s, alternating(job.panel()), 250, 1));
  REQUIRE(job.ironing.settle(s, "settled").outcome == Outcome::settled);
  return {job.read(s), std::max(job.ironing.bound_on_the_way(), job.ironing.bound_settled())};
}

Worked certified(const Case& c, int passes = 2) {
  const Worked w = worked(c, certified_options(Model(c, coarse(150))), passes);
  CHECK(w.bound <= certified_tension(c));
  return w;
}

double mean_pull(const Readings& r) {
  double sum = 0;
  for (std::size_t z = 0; z < r.zones.chord.size(); ++z) sum += r.zones.chord[z] + r.zones.span[z];
  return sum / (2 * static_cast<double>(r.zones.chord.size()));
}

// Largest difference of a zone's pull, `factor` times one against the other [N/m].
double apart(const Readings& a, const Readings& b, double factor) {
  double worst = 0;
  for (std::size_t z = 0; z < a.zones.chord.size(); ++z)
    worst = std::max({worst, std::abs(factor * a.zones.chord[z] - b.zones.chord[z]),
                      std::abs(factor * a.zones.span[z] - b.zones.span[z])});
  return worst;
}

Case rudder() {
  Case c = one_zone_a_bay(sample::light_rudder(3));
  sample::make_rigid(c);
  return c;
}

void multiply_cloth(Case& c, double by) {
  c.cloth.stiffness = {by * c.cloth.stiffness.warp, by * c.cloth.stiffness.fill};
  c.cloth.shear *= by;
  for (ShrinkPoint& p : c.cloth.curve) p.pull = {by * p.pull.warp, by * p.pull.fill};
}

}  // namespace

TEST_CASE("what is certified goes with the pull of the cloth, and is 2 N/m where that is usual") {
  Case c = sample::aileron();
  CHECK(certified_tension(c) == 2);
  multiply_cloth(c, 2.0 / 3);
  CHECK(certified_tension(c) == 2);
  multiply_cloth(c, 3);  // 700 N/m after the coolest stage: half a percent
  CHECK(certified_tension(c) == Approx(3.5));
  multiply_cloth(c, 0.1);  // 70 N/m: one percent
  CHECK(certified_tension(c) == Approx(0.7));
  c.stages.clear();
  CHECK(certified_tension(c) == 2);
}

TEST_CASE("cloth of four times the stiffness and the pull pulls four times as much, certified") {
  Case soft = rudder(), stiff = rudder();
  multiply_cloth(stiff, 4);
  // Forces grow with the cloth, and everything else stays as it is: a similarity of the equations.
  const double bound = certified_tension(stiff) + 4 * certified_tension(soft);
  CHECK(apart(certified(soft).readings, certified(stiff).readings, 4) < 3 * bound);
}

TEST_CASE(
    "stiff cloth of usual pull is certified, close to cloth a little less stiff and to the plain way of solving") {
  Case less = rudder(), stiff = rudder();
  less.cloth.stiffness = {360e3, 360e3};
  stiff.cloth.stiffness = {400e3, 400e3};
  CHECK(mean_pull(certified(stiff).readings) == Approx(mean_pull(certified(less).readings)).epsilon(0.03));
  const Worked plain = worked(stiff, {});
  CHECK(apart(certified(stiff).readings, plain.readings, 1) < 3 * (plain.bound + certified_tension(stiff)));
}

TEST_CASE("a panel a seventh of the size is pulled as its big sister is") {
  Case big = rudder(), small = rudder();
  multiply_lengths(small, 1.0 / 7);  // a chord of 0.05 m
  REQUIRE(small.outline.trailing_edge.front().x == Approx(0.05));
  CHECK(apart(certified(big).readings, certified(small).readings, 1) < 6 * certified_tension(big));
}

TEST_CASE("yarns that differ tenfold in stiffness are certified, and turned by a right angle it is the same cloth") {
  for (double angle : {0.0, 0.5}) {
    Case c = rudder(), turned = rudder();
    c.cloth.stiffness = {400e3, 40e3};
    c.cloth.poisson = 0.1;
    c.cloth.warp_angle = angle;
    turned.cloth = c.cloth;
    turned.cloth.stiffness = {40e3, 400e3};
    turned.cloth.poisson = 0.01;  // nu_wf/E_w is the same either way round
    turned.cloth.warp_angle = angle - std::acos(-1.0) / 2;
    CHECK(apart(certified(c).readings, certified(turned).readings, 1) < 6 * certified_tension(c));
  }
}

TEST_CASE(
    "heavy cloth, one percent loose, is certified through three full passes, which do not change its pull by much") {
  Case c = rudder();
  multiply_cloth(c, 120.0 / 92);
  const double two = mean_pull(certified(c, 2).readings), three = mean_pull(certified(c, 3).readings);
  CHECK(three == Approx(two).epsilon(0.03));
}

TEST_CASE("friction up to its maximum is solved and certified, between less friction and a glued edge") {
  for (double stiffness : {100e3, 400e3}) {
    Case c = one_zone_a_bay(sample::light_rudder(2));
    sample::make_rigid(c);
    c.cloth.stiffness = {stiffness, stiffness};
    c.blanket.wrap_angle = 3.5;
    Case glued = c;
    glued.blanket.edge_glued = true;
    const double stuck = mean_pull(certified(glued).readings);
    double last_slip = 1;
    for (double friction : {0.5, 1.0, 1.5}) {
      c.blanket.edge_friction = friction;
      const Readings r = certified(c).readings;
      CHECK(mean_pull(r) == Approx(stuck).epsilon(0.05));
      CHECK(std::abs(r.slip.value) <= last_slip * 1.02 + 1e-5);
      last_slip = std::abs(r.slip.value);
    }
  }
}

TEST_CASE("what a solve misses is told with its own number, its own allowance and its own unit") {
  const Case c = rudder();
  struct Row {
    void (*spoil)(SolveOptions&);
    const char *what, *unit;
  };
  const Row rows[] = {{[](SolveOptions& a) { a.force_tolerance = 1e-30; }, "force out of balance", "N"},
                      {[](SolveOptions& a) { a.tension_tolerance = 1e-30; }, "law of the cloth", "N/m"},
                      {[](SolveOptions& a) {
                         a.friction_tolerance = 1e-30;
                         a.most_iterations = 20;
                       },
                       "friction off its law", ""},
                      {[](SolveOptions& a) { a.tension_bound = 1e-12; }, "bound on the error of the pull", "N/m"}};
  for (const Row& row : rows) {
    SolveOptions a;
    row.spoil(a);
    Job fair(c, 150);
    Covering s = fair.ironing.begin();
    Ironing spoilt(fair.model, a);
    try {
      spoilt.iron(s, 0, held_pass(fair.model, true_temperature(250), 1), "250 F, pass 1, T1");
      FAIL("accepted: " << row.what);
    } catch (const NotConverged& e) {
      CHECK_THAT(e.missed.what, Catch::Matchers::Contains(row.what));
      CHECK(e.missed.unit == row.unit);
      CHECK(e.missed.value > e.missed.allowed);
      CHECK(std::isfinite(e.missed.value));
    }
  }
}

TEST_CASE("the advice names what the doubt comes from") {
  Case c = rudder();
  SolveReport r;
  const auto advice = [&] { return given_up(Model(c, coarse(150)), r, "step").advice; };
  CHECK_THAT(advice(), Catch::Matchers::Contains("mesh.nodes"));
  r.failed = Test::friction;
  CHECK_THAT(advice(), Catch::Matchers::Contains("blanket.edge_friction"));
  r.failed = Test::certainty;
  r.gap = 1;
  CHECK_THAT(advice(), Catch::Matchers::Contains("cloth.looseness"));
  r.friction_gap = 0.8;
  CHECK_THAT(advice(), Catch::Matchers::Contains("blanket.edge_friction"));
  r.friction_gap = 0.1;
  c.cloth.stiffness.fill = c.cloth.stiffness.warp / 5;
  CHECK_THAT(advice(), Catch::Matchers::Contains("cloth.stiffness"));
}
