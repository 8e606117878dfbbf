// When an equilibrium may be accepted (docs/model.md, sections 2 and 9).
#include "solver/ironing.hpp"
#include "tests/support/reference_panel.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

// A triangle whose pull has fallen to next to nothing moves by next to nothing in an iteration: small steps alone do
// not show that it has arrived. At the answer N S = beta I, so that the bound is sqrt(4 beta / lambda_min(C)).
TEST_CASE("an accepted answer has the tension error bound of its smoothing, on every step") {
  const reference::SmallPanel p = reference::small_panels().front();
  const Model m(p.the_case, p.mesh);
  Accuracy a;
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
      const StepReport r = ironing.iron(s, step.zone, step.temperature, step.dose, m.panel.zones[step.zone].label);
      // The certificate is sharper where cloth is tight; friction that is smoothed over adds its own share.
      CHECK(r.solve.tension_bound <= 1.05 * std::sqrt(4 * smoothing / m.softest) + certified_tension);
    }
  }
}
