// The job step by step (docs/model.md, sections 3, 5 and 9).
#include "solver/statement/errors.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

TEST_CASE("cloth as laid on is loose and loads nothing") {
  Job j(one_zone_a_bay(sample::aileron(3, 0.9)), 150);
  const Covering s = j.ironing.begin();
  const Readings r = j.read(s);
  CHECK(r.loose_share == Approx(1));
  CHECK(r.stress_use.value < 1e-3);
  CHECK(std::abs(r.slip.value) < 1e-6);
  for (const auto& shrink : s.shrink) CHECK(shrink == std::array<double, 2>{0, 0});
}

TEST_CASE("a step shrinks the hot zone and nothing else") {
  Job j(one_zone_a_bay(sample::aileron(3, 0.9)), 150);
  Covering s = j.ironing.begin();
  const StepReport r = j.ironing.iron(s, 4, held_pass(j.model, true_temperature(250), 1), "B2");
  CHECK(r.outcome == Outcome::settled);
  CHECK(r.solve.converged);
  for (std::size_t t = 0; t < s.shrink.size(); ++t)
    for (int d = 0; d < 2; ++d)
      if (j.panel().quads[t / 4].zone == 4) CHECK(s.shrink[t][d] > 0.005);
      else CHECK(s.shrink[t][d] == 0);
}

TEST_CASE("shrink never falls on the way and nothing shrinks below the onset") {
  Job j(one_zone_a_bay(sample::aileron(3, 0.9)), 150);
  Covering s = j.ironing.begin();
  for (double f : {250.0, 170.0, 300.0, 250.0}) {
    for (int z : {0, 3, 1}) {
      const Covering before = s;
      REQUIRE(work(j, s, {z}, f, 0.7));
      for (std::size_t t = 0; t < s.shrink.size(); ++t)
        for (int d = 0; d < 2; ++d) CHECK(s.shrink[t][d] >= before.shrink[t][d]);
      if (f < 176) CHECK(s.shrink == before.shrink);
    }
  }
}

TEST_CASE("a fully ironed zone does not move when ironed again at once") {
  Job j(one_zone_a_bay(sample::aileron(3, 0.9)), 150);
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, {0, 3, 1}, 250, 1));
  Covering again = s;
  REQUIRE(work(j, again, {1}, 250, 1));
  // The step takes up the members' compression anew, hence not to rounding.
  const Readings a = j.read(s), b = j.read(again);
  for (std::size_t z = 0; z < a.zones.chord.size(); ++z) {
    CHECK(b.zones.chord[z] == Approx(a.zones.chord[z]).margin(1));
    CHECK(b.zones.span[z] == Approx(a.zones.span[z]).margin(1));
  }
}

TEST_CASE("no tension error bound is wider than its smoothing allows, and settling narrows it below 2 N/m") {
  Job j(one_zone_a_bay(sample::aileron(3, 0.9)), 150);
  Covering s = j.ironing.begin();
  const double softest = j.model.softest, coarse_bound = std::sqrt(4e-3 / softest);  // docs/model.md, section 2
  for (int z : alternating(j.panel())) {
    const StepReport step =
        j.ironing.iron(s, z, held_pass(j.model, true_temperature(250), 1), j.panel().zones[z].label);
    REQUIRE(step.outcome == Outcome::settled);
    // Friction that is smoothed over adds its share; tight cloth takes from it.
    CHECK(step.solve.tension_bound < coarse_bound + 2);
  }
  const Covering before = s;
  const StepReport r = j.ironing.settle(s, "250 F, settled");
  CHECK(r.outcome == Outcome::settled);
  CHECK(j.ironing.bound_settled() > 0);
  CHECK(j.ironing.bound_settled() < 2);
  CHECK(s.shrink == before.shrink);
  // The true change must lie within the two bounds together; rms over the area.
  double sum = 0, area = 0;
  for (std::size_t t = 0; t < s.tension.size(); ++t) {
    sum += j.model.triangles[t].weight * (s.tension[t].pull - before.tension[t].pull).squaredNorm();
    area += j.model.triangles[t].weight;
  }
  CHECK(std::sqrt(sum / area) < coarse_bound + j.ironing.bound_settled());
}

TEST_CASE("taking the fixture off keeps the shrink and lets the frame move") {
  Job j(one_zone_a_bay(sample::light_rudder(3)), 150);
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, alternating(j.panel()), 250, 0.5));
  REQUIRE(j.ironing.settle(s, "settled").outcome == Outcome::settled);
  Covering released = s;
  REQUIRE(j.ironing.release(released, "released").outcome == Outcome::settled);
  CHECK(released.held == Held::in_use);
  CHECK(released.shrink == s.shrink);
  for (int i : j.model.held[static_cast<int>(Held::in_use)]) CHECK(released.unknowns[i] == 0);
  CHECK((released.unknowns - s.unknowns).norm() > 1e-6);
}

TEST_CASE("with creep switched on, hot cloth that is pulled too hard gives way") {
  Case c = one_zone_a_bay(sample::aileron(3, 0.9));
  Case creeping = c;
  creeping.cloth.creep_share = 0.5;
  Job plain(c, 150), soft(creeping, 150);
  const auto most = [](Job& j) {
    Covering s = j.ironing.begin();
    for (int pass = 0; pass < 2; ++pass) REQUIRE(work(j, s, one_side_first(j.panel()), 250, 1));
    double worst = 0;
    for (double v : j.read(s).zones.span) worst = std::max(worst, v);
    return worst;
  };
  CHECK(most(soft) < most(plain));
}

TEST_CASE("more iterations than allowed is an error that says where and by how much") {
  SolveOptions hopeless;
  hopeless.most_iterations = 1;
  Job good(one_zone_a_bay(sample::aileron(3, 0.9)), 150);
  Covering s = good.ironing.begin();
  Ironing bad(good.model, hopeless);
  try {
    bad.iron(s, 1, held_pass(good.model, true_temperature(350), 1), "350 F, pass 1, T2");
    FAIL("converged in one iteration");
  } catch (const NotConverged& e) {
    CHECK(e.where.what == "350 F, pass 1, T2");
    CHECK(e.missed.value > e.missed.allowed);
    CHECK_FALSE(e.missed.what.empty());
    CHECK_FALSE(e.advice.empty());
  }
}
