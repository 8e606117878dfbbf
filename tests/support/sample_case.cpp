#include "tests/support/sample_case.hpp"

namespace evenpull::sample {
namespace {

double fahrenheit(double f) { return (f + 459.67) / 1.8; }

MemberMake tube(double outside, double wall, int material) {
  MemberMake m;
  m.shape.kind = SectionShape::Kind::tube;
  m.shape.outside_diameter = outside;
  m.shape.wall = wall;
  m.material = material;
  return m;
}

}  // namespace

Cloth cloth() {
  Cloth c;
  c.areal_mass = 0.092;
  c.stiffness = {100e3, 100e3};
  c.poisson = 0.1;
  c.shear = 5e3;
  c.looseness = {0.01, 0.01};
  c.curve = {{fahrenheit(176), {0, 0}, {0, 0}},
             {fahrenheit(250), {0.05, 0.05}, {350, 350}},
             {fahrenheit(300), {0.075, 0.075}, {600, 600}},
             {fahrenheit(350), {0.10, 0.10}, {900, 900}}};
  return c;
}

Case aileron(int bays, double span, double chord) {
  Case c;
  c.title = "sample aileron";
  c.invented = true;
  c.outline.leading_edge = {{0, 0}, {0, span}};
  c.outline.trailing_edge = {{chord, 0}, {chord, span}};
  c.profile = {{0, 0.0, 0.0},      {0.03, 0.035, 0.035}, {0.1, 0.055, 0.055},
               {0.25, 0.06, 0.06}, {0.6, 0.035, 0.035},  {1, 0.006, 0.006}};
  c.materials = {{"2024-T3", 72.4e9, 27.5e9, 290e6, Strength::yield},
                 {"6061-T6", 68.9e9, 26e9, 241e6, Strength::yield}};
  MemberMake nose;
  nose.shape.kind = SectionShape::Kind::closed_nose;
  nose.shape.wall = 0.5e-3;
  MemberMake edge;
  edge.shape.kind = SectionShape::Kind::folded_edge;
  edge.shape.wall = 0.6e-3;
  edge.shape.width = 25e-3;
  edge.shape.height = 5e-3;
  MemberMake rib;
  rib.shape.kind = SectionShape::Kind::sheet_rib;
  rib.shape.wall = 0.5e-3;
  rib.shape.width = 14e-3;
  c.span_members = {{"nose", SpanRole::leading_edge, 0.25, nose, false},
                    {"trailing edge", SpanRole::trailing_edge, 1.0, edge, false}};
  for (int i = 0; i <= bays; ++i) c.ribs.push_back({span * i / bays, rib, {JointKind::rigid}, {JointKind::rigid}});
  Support clamp;
  clamp.kind = SupportKind::clamp;
  clamp.hold = {true, true, true, true, true, true};
  c.while_ironed = {clamp, clamp};
  c.while_ironed[1].station = span;
  Support hinge;
  hinge.kind = SupportKind::hinge;
  hinge.hold = {true, true, true, false, false, false};
  Support sliding = hinge;
  sliding.hold[1] = false;
  Support horn;
  horn.kind = SupportKind::horn;
  horn.hold = {false, false, false, false, true, false};
  c.in_use = {hinge, sliding, horn};
  c.in_use[1].station = span;
  c.cloth = cloth();
  c.blanket.seam_chord_fraction = 0.02;
  c.blanket.nose_chord_fraction = 0.25;
  c.blanket.wrap_angle = 2.967;
  c.blanket.edge_friction = 0.25;
  c.blanket.rib_friction = 0.25;
  c.iron = {0.20, 0.10, 0.035, 6.0, 8.0};
  c.stages = {{fahrenheit(250), {0.25, 0.25, 1}}, {fahrenheit(300), {1, 1}}, {fahrenheit(350), {1, 1}}};
  c.limits = {0.5, 1.0 / 3, 0.01, 0.5 * 3.14159265358979 / 180, 2.0, 5e-3, 0.25, {}};
  return c;
}

Case light_rudder(int bays) {
  Case c = aileron(bays);
  c.title = "sample light rudder";
  c.span_members = {{"leading edge", SpanRole::leading_edge, 0.04, tube(25.4e-3, 0.9e-3, 1), false},
                    {"trailing edge", SpanRole::trailing_edge, 1.0, tube(12.7e-3, 0.9e-3, 1), false}};
  c.profile = {{0, 0, 0},         {0.02, 0.03, 0.03}, {0.04, 0.0363, 0.0363},
               {0.3, 0.05, 0.05}, {0.6, 0.04, 0.04},  {1, 0.018, 0.018}};
  for (Rib& r : c.ribs) r.make = tube(12.7e-3, 0.9e-3, 1);
  c.blanket.seam_chord_fraction = 0.02;
  c.blanket.nose_chord_fraction = 0;
  return c;
}

void make_rigid(Case& c) {
  for (Material& m : c.materials) m.youngs_modulus *= 1e5, m.shear_modulus *= 1e5;
}

}  // namespace evenpull::sample
