// Members whose shape changes along the span, and a nose that its spar closes.
#include "solver/geometry/nose.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/geometry/surface.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

/// The light rudder's leading edge, thinner from a station on.
Case stepped(double station) {
  Case c = sample::light_rudder(4);
  ShapeFrom thin{station, c.span_members[0].make.shape};
  thin.shape.outside_diameter = 0.0191;
  c.span_members[0].make.changes = {thin};
  return c;
}

double strength(const Section& s) { return s.inertia_up / s.reach_up; }

}  // namespace

TEST_CASE("each piece of a stepped tube has the tube at its middle, and the joint at the step the weaker one") {
  const Case plain = sample::light_rudder(4), c = stepped(0.5 * plain.outline.span());
  const Panel p = build_panel(c, {600});
  const Section wide = section_of(c.span_members[0].make.shape, 0),
                thin = section_of(c.span_members[0].make.changes[0].shape, 0);
  bool met = false;
  for (int i : p.members[0].beams) {
    const Beam& b = p.beams[static_cast<std::size_t>(i)];
    const double y0 = p.joints[static_cast<std::size_t>(b.from)].position.y(),
                 y1 = p.joints[static_cast<std::size_t>(b.to)].position.y(),
                 step = c.span_members[0].make.changes[0].station;
    const double tiny = 1e-6;
    CHECK(b.section.inertia_up == (0.5 * (y0 + y1) < step ? wide : thin).inertia_up);
    CHECK(strength(b.section_from) == (y0 < step - tiny ? strength(wide) : strength(thin)));
    CHECK(strength(b.section_to) == (y1 < step - tiny ? strength(wide) : strength(thin)));
    met = met || std::abs(y1 - step) < tiny;
  }
  CHECK(met);  // the step stands at a rib, so at a joint
}

TEST_CASE("a piece within which the tube steps is judged by the thinner one at both ends, whichever way it steps") {
  const double span = sample::light_rudder(4).outline.span();
  Case c = stepped(0.613 * span), back = c;
  std::swap(back.span_members[0].make.shape, back.span_members[0].make.changes[0].shape);
  const double thin = strength(section_of(c.span_members[0].make.changes[0].shape, 0));
  for (const Case* one : {&c, &back}) {
    const Panel p = build_panel(*one, {600});
    int within = 0;
    for (int i : p.members[0].beams) {
      const Beam& b = p.beams[static_cast<std::size_t>(i)];
      if (p.joints[static_cast<std::size_t>(b.from)].position.y() > 0.613 * span ||
          p.joints[static_cast<std::size_t>(b.to)].position.y() < 0.613 * span)
        continue;
      ++within;
      CHECK(strength(b.section_from) == thin);
      CHECK(strength(b.section_to) == thin);
    }
    CHECK(within == 1);
  }
}

TEST_CASE("a nose that a thick spar closes is stiffer, and one whose web is as the skin is what it was") {
  const Case c = sample::aileron(4);
  const Surface surface(c);
  const auto outline = nose_outline(surface, 0.25, {0, 0});
  SectionShape nose = c.span_members[0].make.shape;
  const Section plain = nose_section(nose, {}, outline), before = closed_section(outline, nose.wall);
  CHECK(plain.inertia_up == before.inertia_up);
  CHECK(plain.torsion == before.torsion);
  nose.web = nose.wall;
  CHECK(nose_section(nose, {}, outline).inertia_flat == before.inertia_flat);
  nose.web = 4 * nose.wall;
  const Section spar = nose_section(nose, {}, outline);
  CHECK(spar.inertia_up > before.inertia_up);
  CHECK(spar.torsion > before.torsion);
  CHECK(spar.area > before.area);
}
