// When an equilibrium may be accepted (docs/model.md, sections 2 and 9).
#include "solver/ironing/ironing.hpp"
#include "tests/support/held_pass.hpp"
#include "tests/support/reference_panel.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

// A triangle whose pull has fallen to next to nothing moves by next to nothing in an iteration: small steps alone do
// not show that it has arrived. At the answer N S = beta I, so that the bound is sqrt(4 beta / lambda_min(C)).
TEST_CASE("an accepted answer has the tension error bound of its smoothing, on every step") {
  const reference::SmallPanel p = reference::small_panels().front();
  const Model m(p.the_case, p.mesh);
  SolveOptions a;
  a.force_tolerance = 1e-6;
  a.tension_tolerance = 1e-4;
  a.friction_tolerance = 1e-5;
  a.most_iterations = 300;
  for (double smoothing : {1e-3, 1e-6}) {
    a.smoothing = smoothing;
    Ironing ironing(m, a);
    Covering s = ironing.begin();
    for (const reference::Step& step : p.steps) {
      if (step.kind != reference::Step::Kind::iron) break;
      const PassHeat heat = check::held_pass(m, step.temperature, step.dose);
      const StepReport r = ironing.iron(s, step.zone, heat, m.panel.zones[step.zone].label);
      // The certificate is sharper where cloth is tight; friction that is smoothed over adds its own share.
      CHECK(r.solve.tension_bound <= 1.05 * std::sqrt(4 * smoothing / m.softest) + certified_tension(p.the_case));
    }
  }
}

// A full dose at once on cloth that is loose all over is the hardest step there is; nobody irons so, but a case may
// ask.
TEST_CASE("a full pass over loose cloth is certified, wherever it begins") {
  for (bool light : {false, true}) {
    const Case c = light ? sample::light_rudder(3) : sample::aileron(6);
    MeshOptions w;
    w.target_nodes = light ? 1000 : 700;
    const Model m(c, w);
    Ironing ironing(m, certified_options(m));
    Covering s = ironing.begin();
    for (int strip = 0; strip < m.panel.strips; ++strip) {
      const PassHeat full = check::held_pass(m, c.stages.front().temperature, 1);
      const StepReport r = ironing.iron(s, m.panel.zone(Side::top, 0, strip), full, "full");
      CHECK(r.outcome == Outcome::settled);
      CHECK(r.solve.tension_bound <= certified_tension(c));
    }
  }
}
