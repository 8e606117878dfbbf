// Frames in space through the whole solver (assembly, factorisation, resultants), against closed forms.
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"
#include "tests/support/cloth_patch.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double e = published::tube_modulus, g = 26e9, pi = 3.14159265358979323846;
constexpr double exact = 1e-6;  // the solver's force tolerance beside newtons

PatchBeam tube() { return {published::tube_section(12.7e-3, 0.9e-3), e, g}; }

void clamp(Patch& p, int body) {
  for (int k = 0; k < 6; ++k) p.hold_body(body, k);
}

constexpr book::Chapter frame{"Frame"};

void enter(const std::string& check, const std::string& quantity, double published, double ours) {
  frame.number(check, quantity, "Castigliano, derived here", published, ours, exact);
}

void enter_study(const std::string& check, const std::string& quantity, const std::string& source, double published,
                 const std::vector<MeshLevel>& levels, const std::string& note = "") {
  frame.study(check, quantity, source, published, 1e-3, levels, {}, note);
}

}  // namespace

TEST_CASE("a frame of three arms along x, y and z bends and twists as Castigliano says") {
  // Clamped at the origin: arm a along x, then b along y, then c along z; load P along x at the free end (statically
  // determinate). With s along each arm from its far end, moments about axes at the cut:
  //   arm c: M = P s about y;                      int = P c^3/3EI
  //   arm b: M = P s about z, T = P c about y;     int = P b^3/3EI + P c^2 b/GJ
  //   arm a: M_y = P c, M_z = P b;                 int = P (b^2 + c^2) a/EI;  N = P: P a/EA
  const double a = 0.5, b = 0.35, c = 0.2;
  const double load = 1e-4;  // N: so little that the pull in the first arm does not stiffen it
  Patch p{PatchCloth{}};
  p.add_body({0, 0, 0});
  p.add_body({a, 0, 0});
  p.add_body({a, b, 0});
  p.add_body({a, b, c});
  p.add_beam(0, 1, tube());
  p.add_beam(1, 2, tube());
  p.add_beam(2, 3, tube());
  clamp(p, 0);
  PatchSolver s(p);
  s.load_body(3, {load, 0, 0}, {0, 0, 0});
  s.solve();
  const Section t = tube().section;
  const double ei = e * t.inertia_up, gj = g * t.torsion, ea = e * t.area;
  const std::string check = "Three arms along x, y and z";
  enter(check, "deflection along the load [mm/N]",
        1e3 * (c * c * c / (3 * ei) + b * b * b / (3 * ei) + c * c * b / gj + (b * b + c * c) * a / ei + a / ea),
        1e3 * s.body_translation(3).x() / load);
  enter(check, "twist in the middle arm over the load [mm]", 1e3 * c, 1e3 * std::abs(s.beam_forces(1).twist) / load);
  const BeamForces root = s.beam_forces(0);
  enter(check, "moment at the root over the load [mm]", 1e3 * std::hypot(b, c),
        1e3 * std::hypot(root.bend_up[0], root.bend_flat[0]) / load);
  enter(check, "pull in the first arm over the load [1]", 1, root.axial / load);
}

TEST_CASE("a shaft clamped at both ends shares a torque as its lengths say, and shears accordingly") {
  // T at a third: T_1 = T L_2/L, T_2 = T L_1/L, twist T L_1 L_2/(L GJ). Shear T r/J; sqrt(3) of it as equivalent
  // stress.
  const double first = 0.2, second = 0.4, torque = 6;
  Patch p{PatchCloth{}};
  p.add_body({0, 0, 0});
  p.add_body({0, first, 0});
  p.add_body({0, first + second, 0});
  p.add_beam(0, 1, tube());
  p.add_beam(1, 2, tube());
  clamp(p, 0);
  clamp(p, 2);
  PatchSolver s(p);
  s.load_body(1, {0, 0, 0}, {0, torque, 0});
  s.solve();
  const Section t = tube().section;
  const double whole = first + second;
  const std::string check = "Shaft clamped at both ends, torque at a third";
  enter(check, "twist [mrad]", 1e3 * torque * first * second / (whole * g * t.torsion), 1e3 * s.body_rotation(1).y());
  enter(check, "torque in the short part [N m]", torque * second / whole, std::abs(s.beam_forces(0).twist));
  enter(check, "torque in the long part [N m]", torque * first / whole, std::abs(s.beam_forces(1).twist));
  // Shear = T (D/2)/J with J = pi/32 (D^4 - d^4).
  const double inertia = pi / 32 * (std::pow(12.7e-3, 4) - std::pow(10.9e-3, 4));
  enter(check, "equivalent stress in the short part [MPa]",
        1e-6 * std::sqrt(3.0) * torque * second / whole * 6.35e-3 / inertia, 1e-6 * end_stress(t, s.beam_forces(0), 0));
}

namespace {

// A quarter-round bow of n straight beams, clamped at one end and loaded by `load` across its plane at the other.
struct Bow {
  double deflection, root_twist;
};

Bow quarter_round(int n, double radius, double load, const PatchBeam& beam) {
  Patch p{PatchCloth{}};
  for (int i = 0; i <= n; ++i) {
    const double a = 0.5 * pi * i / n;
    p.add_body(radius * Eigen::Vector3d(std::sin(a), std::cos(a), 0));
    if (i > 0) p.add_beam(i - 1, i, beam);
  }
  clamp(p, 0);
  PatchSolver s(p);
  s.load_body(n, {0, 0, load}, {0, 0, 0});
  s.solve();
  return {s.body_translation(n).z(), std::abs(s.beam_forces(0).twist)};
}

}  // namespace

TEST_CASE("a quarter-round bow loaded across its plane sinks as the curved-beam formula says, to the second order") {
  // Radius R, angle a from the load: M = P R sin a, T = P R (1 - cos a):
  // w = P R^3 [ (pi/4)/EI + (3 pi/4 - 2)/GJ ]. Like a tip bow under the pull.
  const double radius = 0.3, load = 10;
  // An example in pounds and inches of a round bar of 2 in: Timoshenko, Strength of Materials, part I, third edition
  // (1955), as quoted in a manual of examples (looked up): P = 50, R = 100, E = 30e6, deflection 2.648. Poisson's ratio
  // is not quoted; 0.3 gives 2.649.
  PatchBeam bar;
  bar.section.area = pi;
  bar.section.inertia_up = bar.section.inertia_flat = pi / 4;
  bar.section.torsion = pi / 2;
  bar.youngs_modulus = 30e6;
  bar.shear_modulus = 30e6 / 2.6;
  std::vector<MeshLevel> deflection, twist, example;
  for (int n : {6, 12, 24}) {
    const Bow b = quarter_round(n, radius, load, tube());
    deflection.push_back({1.0 / n, 1e3 * b.deflection});
    twist.push_back({1.0 / n, b.root_twist});
    example.push_back({1.0 / n, quarter_round(n, 100, 50, bar).deflection});
  }
  const Section t = tube().section;
  const std::string check = "Quarter-round bow loaded across its plane", source = "Castigliano, derived here";
  enter_study(check, "deflection of its end [mm]", source,
              1e3 * load * std::pow(radius, 3) * (0.25 * pi / (e * t.inertia_up) + (0.75 * pi - 2) / (g * t.torsion)),
              deflection);
  enter_study(check, "deflection of a steel bar's end [in]",
              "Timoshenko, Strength of Materials, part I (1955), as quoted in a manual of examples", 2.648, example,
              "the quoted example does not say which Poisson's ratio it takes for the shear modulus; 0.3 here");
  book::enter({.chapter = "Frame",
               .check = check,
               .quantity = "twist at the root [N m]",
               .source = source,
               .published = load * radius,
               .tolerance = 5e-3,
               .levels = twist,
               .theory = 1,
               .note = "read in the straight piece next to the root, whose axis is half a step off the tangent: first "
                       "order"});
}

TEST_CASE("a ring pulled apart along a diameter opens as the ring formulas say, to the second order") {
  // Thin inextensible ring: pull P opens it by (pi/4 - 2/pi) P R^3/EI along the load and closes it by (2/pi - 1/2)
  // across; moment under the load P R/pi. Timoshenko, Strength of Materials, from memory; derived here. A quarter of it
  // by symmetry: at both ends the slope is held.
  const double radius = 0.2, load = 0.1;  // N: so little that its own pull does not stiffen the ring
  std::vector<MeshLevel> opens, closes, moment;
  PatchBeam beam = tube();
  beam.section.area *= 1e5;  // inextensible
  for (int n : {6, 12, 24}) {
    Patch p{PatchCloth{}};
    for (int i = 0; i <= n; ++i) {
      const double a = 0.5 * pi * i / n;  // from the load, which pulls along x
      p.add_body(radius * Eigen::Vector3d(std::cos(a), std::sin(a), 0));
      if (i > 0) p.add_beam(i - 1, i, beam);
    }
    for (int k : {1, 2, 3, 4, 5}) p.hold_body(0, k);
    for (int k : {0, 2, 3, 4, 5}) p.hold_body(n, k);
    PatchSolver s(p);
    s.load_body(0, {load / 2, 0, 0}, {0, 0, 0});
    s.solve();
    opens.push_back({1.0 / n, 2e3 * s.body_translation(0).x()});
    closes.push_back({1.0 / n, -2e3 * s.body_translation(n).y()});
    moment.push_back({1.0 / n, std::abs(s.beam_forces(0).bend_flat[0])});
  }
  const double unit = 1e3 * load * std::pow(radius, 3) / (e * tube().section.inertia_up);
  const std::string check = "Ring pulled along a diameter",
                    source = "Timoshenko, Strength of Materials, from memory; derived here";
  enter_study(check, "opens along the load by [mm]", source, (pi / 4 - 2 / pi) * unit, opens);
  enter_study(check, "closes across it by [mm]", source, (2 / pi - 0.5) * unit, closes);
  enter_study(check, "moment under the load [N m]", source, load * radius / pi, moment);
}
