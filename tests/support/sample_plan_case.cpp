#include "tests/support/sample_plan.hpp"

namespace evenpull {

namespace {

constexpr double inch = 0.0254;
constexpr double kelvin(double fahrenheit) { return (fahrenheit - 32) / 1.8 + 273.15; }

MemberMake tube(double diameter, double wall) {
  MemberMake make;
  make.shape.kind = SectionShape::Kind::tube;
  make.shape.outside_diameter = diameter;
  make.shape.wall = wall;
  return make;
}

void add_defaults(Case& c) {
  c.defaults_used = {
      {"cloth.looseness", "1 %", "estimate, 0 to 3 % is usual"},
      {"cloth.stiffness", "571 lb/in (100 kN/m)", "estimate for 2.7 oz/yd^2 cloth"},
      {"cloth.shear", "29 lb/in (5 kN/m)", "estimate"},
      {"cloth.curve", "pull 2.0 / 3.4 / 5.1 lb/in at 250 / 300 / 350 °F", "estimate, x 0.5 to x 1.8"},
      {"blanket.edge_friction", "0.25", "estimate"},
      {"blanket.wrap_angle", "170°", "estimate for a thin trailing edge"},
      {"blanket.rib_friction", "0.25", "estimate"},
      {"iron.sole_length", "7.9 in (200 mm)", "estimate"},
      {"iron.travel_speed", "1.2 in/s (30 mm/s)", "estimate"},
      {"iron.cooling_time", "6 s", "computed for still air"},
      {"limits.yield_share", "0.5", "engineering judgement"},
      {"limits.bow_per_spacing", "1 / 100", "engineering judgement"},
      {"limits.twist", "0.5°", "engineering judgement"},
  };
}

}  // namespace

Case sample_case(const SampleWish& wish) {
  Case c;
  c.file = "sample.toml";
  c.title = wish.tip_bow ? "Practice elevator with a tip bow" : "Practice aileron, light tubes";
  c.description = "Invented for tests.";
  c.invented = true;
  c.outline.leading_edge = {{0, 0}, {0.02, wish.span}};
  c.outline.trailing_edge = {{wish.root_chord, 0}, {0.02 + wish.tip_chord, wish.span}};
  c.outline.tip_bow_depth = wish.tip_bow ? 0.12 : 0;
  c.tip_thickness = wish.tip_bow ? 0.0127 : 0;
  c.profile = {{0, 0, 0},           {0.05, 0.035, 0.035}, {0.15, 0.05, 0.05}, {0.3, 0.055, 0.055},
               {0.6, 0.035, 0.035}, {0.9, 0.01, 0.01},    {1, 0.003, 0.003}};
  c.materials = {{"6061-T6", 68.9e9, 26e9, 241e6, Strength::yield}};
  c.span_members = {{"leading edge", SpanRole::leading_edge, 0, tube(0.75 * inch, 0.035 * inch)},
                    {"main spar", SpanRole::spar, 0.3, tube(1 * inch, 0.035 * inch)},
                    {"trailing edge", SpanRole::trailing_edge, 1, tube(0.5 * inch, 0.035 * inch)}};
  for (int i = 0; i <= wish.bays; ++i)
    c.ribs.push_back(
        {wish.span * i / wish.bays, tube(0.5 * inch, 0.035 * inch), {JointKind::rigid}, {JointKind::rigid}});
  if (wish.tip_bow) c.tip_bow = tube(0.5 * inch, 0.035 * inch);
  c.while_ironed = {{SupportKind::rest, 1, 0, false, {true, true, true, true, false, true}},
                    {SupportKind::rest, 1, wish.span, false, {false, false, true, true, false, false}}};
  c.in_use = {{SupportKind::hinge, 1, wish.span * 0.15, false, {true, true, true, false, false, false}},
              {SupportKind::hinge, 1, wish.span * 0.85, false, {true, false, true, false, false, false}},
              {SupportKind::horn, 1, 0, false, {false, false, false, false, true, false}}};
  c.cloth.areal_mass = 0.0915;
  c.cloth.stiffness = {1e5, 1e5};
  c.cloth.poisson = 0.1;
  c.cloth.shear = 5e3;
  c.cloth.looseness = {0.01, 0.01};
  c.cloth.curve = {{kelvin(180), {0, 0}, {0, 0}},
                   {kelvin(250), {0.05, 0.05}, {350, 350}},
                   {kelvin(300), {0.075, 0.075}, {600, 600}},
                   {kelvin(350), {0.10, 0.10}, {900, 900}}};
  c.blanket.kind = wish.two_sheets ? BlanketKind::two_sheets : BlanketKind::full_wrap;
  c.blanket.edge_friction = 0.25;
  c.blanket.rib_friction = 0.25;
  c.blanket.inner_ribs = RibTie::bearing;
  c.iron = {0.2, 0.1, 0.03, 6, 11};
  c.stages = {{kelvin(250), {0.25, 0.25, 1}}, {kelvin(300), {1, 1}}, {kelvin(350), {1, 1}}};
  c.limits = {0.5, 1.0 / 3, 0.01, 0.5 / 57.29577951, 2, 0.005, 0.25, {}};
  c.approved_last_stage = kelvin(350);
  add_defaults(c);
  return c;
}

}  // namespace evenpull
