// A flat tailplane of invented numbers, stated in code: two tubes along the span, tubes as ribs, one full wrap.
#pragma once

#include <evenpull/solver/statement/case.hpp>

namespace invented {

inline double fahrenheit(double f) {
  return (f + 459.67) / 1.8;  // K
}

inline evenpull::MemberMake tube(double diameter, double wall) {
  evenpull::MemberMake make;
  make.shape.kind = evenpull::SectionShape::Kind::tube;
  make.shape.outside_diameter = diameter;
  make.shape.wall = wall;
  return make;
}

inline evenpull::Support support(double station, bool against_turning) {
  evenpull::Support s;
  s.station = station;
  s.hold = {true, true, true, against_turning, against_turning, against_turning};
  return s;
}

/// `bays` bays of 0.3 m, 0.4 m deep, with an iron as large as a bay: one zone a bay and side.
inline evenpull::Case tailplane(int bays) {
  const double span = 0.3 * bays;
  evenpull::Case c;
  c.title = "invented tailplane";
  c.invented = true;
  c.outline.leading_edge = {{0, 0}, {0, span}};
  c.outline.trailing_edge = {{0.4, 0}, {0.4, span}};
  c.profile = {{0, 0.0, 0.0}, {0.02, 0.03, 0.03}, {0.3, 0.05, 0.05}, {0.6, 0.04, 0.04}, {1, 0.018, 0.018}};
  c.materials = {{"light alloy", 70e9, 26e9, 240e6, evenpull::Strength::yield}};
  c.span_members = {{"front tube", evenpull::SpanRole::leading_edge, 0.04, tube(28e-3, 1e-3), false},
                    {"rear tube", evenpull::SpanRole::trailing_edge, 1.0, tube(16e-3, 1e-3), false}};
  for (int i = 0; i <= bays; ++i)
    c.ribs.push_back({span * i / bays, tube(14e-3, 1e-3), {evenpull::JointKind::rigid}, {evenpull::JointKind::rigid}});
  c.while_ironed = {support(0, true), support(span, true)};
  c.in_use = {support(0, true), support(span, false)};
  c.cloth.areal_mass = 0.09;
  c.cloth.stiffness = {100e3, 100e3};
  c.cloth.poisson = 0.1;
  c.cloth.shear = 5e3;
  c.cloth.looseness = {0.01, 0.01};
  c.cloth.curve = {{fahrenheit(180), {0, 0}, {0, 0}},
                   {fahrenheit(250), {0.05, 0.05}, {350, 350}},
                   {fahrenheit(350), {0.10, 0.10}, {900, 900}}};
  c.blanket.seam_chord_fraction = 0.02;
  c.blanket.wrap_angle = 2.967;
  c.blanket.edge_friction = 0.25;
  c.blanket.rib_friction = 0.25;
  c.iron = {1.0, 0.3, 0, 6, 0};
  c.stages = {{fahrenheit(250), {1}}};
  c.limits = {0.5, 1.0 / 3, 0.01, 0.0087, 2.0, 5e-3, 0.25, {}};
  c.target_nodes = 350;
  return c;
}

}  // namespace invented
