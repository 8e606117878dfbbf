#include "tests/support/reference_panel.hpp"

#include "tests/support/sample_case.hpp"

namespace evenpull::reference {
namespace {

double fahrenheit(double f) { return (f + 459.67) / 1.8; }

// The job on the bench: three passes at most, over all zones from the inboard end; the side that begins changes from
// bay to bay.
void work_pass(SmallPanel& p, int strips, double temperature_f, double dose) {
  const int bays = static_cast<int>(p.the_case.ribs.size()) - 1;
  for (int b = 0; b < bays; ++b)
    for (int side : {b % 2, 1 - b % 2})
      for (int k = 0; k < strips; ++k)
        p.steps.push_back({Step::Kind::iron, (side * bays + b) * strips + k, fahrenheit(temperature_f), dose});
}

void settle(SmallPanel& p) { p.steps.push_back({Step::Kind::settle, 0, 0, 0}); }
void release(SmallPanel& p) { p.steps.push_back({Step::Kind::release, 0, 0, 0}); }

// Another plan outline for a case that has its ribs evenly spaced.
void reshape(Case& c, double span, double chord_inboard, double chord_outboard) {
  c.outline.leading_edge = {{0, 0}, {0, span}};
  c.outline.trailing_edge = {{chord_inboard, 0}, {chord_outboard, span}};
  for (std::size_t i = 0; i < c.ribs.size(); ++i)
    c.ribs[i].station = span * static_cast<double>(i) / static_cast<double>(c.ribs.size() - 1);
  for (std::vector<Support>* set : {&c.while_ironed, &c.in_use}) (*set)[1].station = span;
}

// An iron that keeps a strip hot of which so many make a bay, near enough for the mesh to cut it so.
Iron strips_of(const Case& c, int strips) {
  const double length = c.outline.trailing_edge.front().x, bay = c.ribs[1].station - c.ribs[0].station;
  const double width = 0.9 * length / strips;
  return {bay, width, 0, 6, 0};
}

// States a tube by its numbers, without what it gives in shear.
void leave_out_shear(MemberMake& make) {
  Section s = section_of(make.shape, 0);
  s.shear_up = s.shear_flat = 0;
  make.shape = {};
  make.shape.kind = SectionShape::Kind::properties;
  make.shape.given = s;
}

// Light tubes, a full wrap that slides round the trailing edge, friction on the inner rib; two strips a bay, a light
// pass and a full one of the first stage.
SmallPanel wrapped_rudder() {
  SmallPanel p{"wrapped_rudder", "Light rudder, full wrap, first stage", sample::light_rudder(2), {}, {}};
  reshape(p.the_case, 0.6, 0.35, 0.35);
  p.the_case.iron = strips_of(p.the_case, 2);
  p.mesh.target_nodes = 90;
  // With the little that its tubes give in shear the second way's minimiser did not end in seven minutes.
  for (SpanMember& m : p.the_case.span_members) leave_out_shear(m.make);
  for (Rib& r : p.the_case.ribs) leave_out_shear(r.make);
  work_pass(p, 2, 250, 0.25);
  work_pass(p, 2, 250, 1);
  settle(p);
  release(p);
  return p;
}

// Two sheets glued all round, cloth stiffer along one yarn and looser along the other; all three stages.
SmallPanel glued_sheets() {
  SmallPanel p{"glued_sheets", "Two glued sheets on a light frame, three stages", sample::light_rudder(2), {}, {}};
  Case& c = p.the_case;
  reshape(c, 0.5, 0.32, 0.32);
  c.iron = strips_of(c, 1);
  c.blanket.kind = BlanketKind::two_sheets;
  c.blanket.inner_ribs = RibTie::glued;
  c.cloth.stiffness = {120e3, 80e3};
  c.cloth.looseness = {0.005, 0.015};
  p.mesh.target_nodes = 100;
  for (double t : {250.0, 300.0, 350.0}) {
    work_pass(p, 1, t, 1);
    settle(p);
  }
  release(p);
  return p;
}

// Tapered, yarns at 20 degrees to the span, metal nose, hinged outer rib, a brace; two stages, then a zone worked once
// more at the first one, whose limit the cloth's pull has passed by then: it creeps.
SmallPanel tapered_aileron() {
  SmallPanel p{
      "tapered_aileron", "Tapered aileron, turned yarns, metal nose, two stages", sample::aileron(2, 0.6), {}, {}};
  Case& c = p.the_case;
  reshape(c, 0.6, 0.38, 0.28);
  c.iron = strips_of(c, 1);
  c.cloth.warp_angle = 0.35;
  c.cloth.creep_share = 0.3;
  c.ribs[2].front_joint.kind = c.ribs[2].rear_joint.kind = JointKind::pinned;
  MemberMake brace;
  brace.shape.kind = SectionShape::Kind::tube;
  brace.shape.outside_diameter = 8e-3;
  brace.shape.wall = 0.8e-3;
  brace.material = 1;
  c.braces = {{"brace", brace, 0, 0, 1, 1}};
  c.blanket.edge_friction = 0.3;
  p.mesh.target_nodes = 110;
  work_pass(p, 1, 250, 0.25);
  work_pass(p, 1, 250, 1);
  settle(p);
  work_pass(p, 1, 300, 1);
  settle(p);
  p.steps.push_back({Step::Kind::iron, 1, fahrenheit(250), 1});
  settle(p);
  release(p);
  return p;
}

MemberMake stated_tube(double outside, double wall) {
  MemberMake make;
  make.shape.kind = SectionShape::Kind::tube;
  make.shape.outside_diameter = outside;
  make.shape.wall = wall;
  make.material = 1;
  leave_out_shear(make);
  return make;
}

// Pressed ribs on upright gussets of three rivets a side: stiff against turning up and down, nearly pinned in the plane
// of the panel, flanges held.
void rivet_ribs(Case& c) {
  MemberMake make;
  make.shape.kind = SectionShape::Kind::sheet_rib;
  make.shape.wall = 0.5e-3;
  make.shape.width = 12e-3;
  make.shape.height = 18e-3;
  leave_out_shear(make);
  JointMake gusset;
  gusset.kind = JointKind::gusset;
  gusset.fasteners = 3;
  gusset.upright = true;
  for (Rib& r : c.ribs) r.make = make, r.front_joint = r.rear_joint = gusset;
}

Brace wire_across(const Case& c, const std::string& name, int from_rib, int to_rib, double tightness) {
  Brace b;
  b.name = name;
  b.make.shape.kind = SectionShape::Kind::tube;
  b.make.shape.outside_diameter = 1e-3;
  b.make.shape.wall = 0.5e-3;
  b.make.material = static_cast<int>(c.materials.size()) - 1;
  b.from_rib = from_rib;
  b.to_member = 1, b.to_rib = to_rib;
  b.wire = true;
  b.tightness = tightness;
  return b;
}

// A pocket in the wrapped trailing edge of the middle bay, riveted ribs, two wires that cross in the inboard bay and
// one in the outboard one. Of the two one goes slack for good, that of the outboard bay until the panel is released.
// Shear is left out as of the rudder.
SmallPanel pocketed_elevator() {
  SmallPanel p{
      "pocketed_elevator", "Elevator with a tab pocket, riveted ribs and wires", sample::light_rudder(3), {}, {}};
  Case& c = p.the_case;
  reshape(c, 0.6, 0.35, 0.35);
  c.iron = strips_of(c, 1);
  for (SpanMember& m : c.span_members) leave_out_shear(m.make);
  rivet_ribs(c);
  Pocket pocket;
  pocket.name = "tab pocket";
  pocket.from = c.ribs[1].station, pocket.to = c.ribs[2].station;
  pocket.depth = 0.08;
  pocket.make = stated_tube(9.5e-3, 0.9e-3);
  c.pockets = {pocket};
  c.materials.push_back({"steel", 200e9, 79e9, 1e9, Strength::yield});
  c.braces = {wire_across(c, "out", 0, 1, 20), wire_across(c, "in", 1, 0, 20), wire_across(c, "tip", 2, 3, 20)};
  p.mesh.target_nodes = 110;
  work_pass(p, 1, 250, 0.25);
  work_pass(p, 1, 250, 1);
  settle(p);
  release(p);
  return p;
}

}  // namespace

std::vector<SmallPanel> small_panels() {
  return {wrapped_rudder(), glued_sheets(), tapered_aileron(), pocketed_elevator()};
}

}  // namespace evenpull::reference
