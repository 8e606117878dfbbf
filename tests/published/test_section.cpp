// Properties of cross sections against elementary formulas, computed here by hand.
#include "solver/frame/beam.hpp"
#include "solver/statement/member_section.hpp"
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"

#include <Eigen/LU>
#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;
using published::tube_section;
using published::tube_with_shear;

namespace {
constexpr double mm = 1e-3, mm2 = 1e-6, mm3 = 1e-9, mm4 = 1e-12;
// The tables below are printed to five digits.
constexpr double five_digits = 2e-5;

constexpr book::Chapter frame{"Frame"};
}  // namespace

TEST_CASE("thin tubes have the area, inertia and moduli of the annulus formulas") {
  // pi/4 (D^2 - d^2), pi/64 (D^4 - d^4), I/(D/2), 2 I: derived here.
  struct Row {
    double outside, area, inertia, modulus;
  };
  for (const Row& r :
       {Row{12.7, 33.364, 584.07, 91.980}, Row{9.525, 24.387, 229.24, 48.134}, Row{25.4, 69.272, 5204.6, 409.81}}) {
    const Section s = tube_section(r.outside * mm, 0.9 * mm);
    const std::string name =
        "Section of a tube " + std::to_string(r.outside).substr(0, r.outside < 10 ? 5 : 4) + " x 0.9 mm";
    const std::string source = "annulus formulas, derived here";
    frame.number(name, "area [mm^2]", source, r.area, s.area / mm2, five_digits);
    frame.number(name, "inertia [mm^4]", source, r.inertia, s.inertia_up / mm4, five_digits);
    frame.number(name, "section modulus [mm^3]", source, r.modulus, s.inertia_up / s.reach_up / mm3, five_digits);
    frame.number(name, "torsion constant [mm^4]", source, 2 * r.inertia, s.torsion / mm4, five_digits);
    frame.number(name, "torsional modulus [mm^3]", source, 2 * r.modulus, s.torsion / s.reach_twist / mm3, five_digits);
    CHECK(s.inertia_flat == Approx(s.inertia_up));
  }
}

TEST_CASE("a square bar twists as Saint-Venant found") {
  // J = 0.140577 a^4, torsional modulus 0.208173 a^3 (Saint-Venant 1855; digits from summing his series: derived here).
  SectionShape shape;
  shape.kind = SectionShape::Kind::bar;
  shape.width = shape.height = 10 * mm;
  const Section s = section_of(shape, 0);
  const std::string name = "Section of a square bar 10 x 10 mm", source = "Saint-Venant (1855); his series summed here";
  frame.number(name, "torsion constant [mm^4]", source, 1405.77, s.torsion / mm4, 2e-3,
               "a fit to the series over all ratios of sides, good to 0.2 %");
  frame.number(name, "torsional modulus [mm^3]", source, 208.173, s.torsion / s.reach_twist / mm3, 5e-3,
               "a fit to the series over all ratios of sides, good to 0.5 %");
  CHECK(s.inertia_up == Approx(10000.0 / 12 * mm4));
}

TEST_CASE("a bar without a height takes the local thickness of the panel") {
  SectionShape shape;
  shape.kind = SectionShape::Kind::bar;
  shape.width = 6 * mm;
  const Section s = section_of(shape, 30 * mm);
  CHECK(s.area == Approx(180 * mm2));
  CHECK(s.inertia_up == Approx(6 * 30 * 30 * 30 / 12.0 * mm4));
  CHECK(s.inertia_flat == Approx(30 * 6 * 6 * 6 / 12.0 * mm4));
}

TEST_CASE("a closed square box twists as Bredt found") {
  // Bredt (1896), from memory: J = 4 A^2 t / perimeter = a^3 t, stress = T/(2 A t). Inertia of four walls: 2/3 a^3 t.
  const double a = 40 * mm, t = 0.5 * mm;
  const Section s = closed_section({{0, 0}, {a, 0}, {a, a}, {0, a}}, t);
  const std::string name = "Closed square box 40 x 0.5 mm", source = "Bredt (1896), from memory";
  frame.number(name, "torsion constant [mm^4]", source, a * a * a * t / mm4, s.torsion / mm4, 1e-9);
  frame.number(name, "torsional modulus [mm^3]", source, 2 * a * a * t / mm3, s.torsion / s.reach_twist / mm3, 1e-9);
  frame.number(name, "inertia [mm^4]", "thin walls, derived here", 2.0 / 3 * a * a * a * t / mm4, s.inertia_up / mm4,
               1e-9);
  CHECK(s.area == Approx(4 * a * t));
  CHECK(s.inertia_flat == Approx(2.0 / 3 * a * a * a * t));
}

TEST_CASE("a closed box may be drawn from any corner and either way round") {
  const Section one = closed_section({{0, 0}, {0.06, 0.01}, {0.05, 0.04}, {0, 0.03}}, 0.0004);
  const Section other = closed_section({{0.05, 0.04}, {0.06, 0.01}, {0, 0}, {0, 0.03}}, 0.0004);
  CHECK(one.torsion == Approx(other.torsion));
  CHECK(one.inertia_up == Approx(other.inertia_up));
  CHECK(one.inertia_flat == Approx(other.inertia_flat));
}

TEST_CASE("a pressed rib without flanges is a thin plate on edge") {
  SectionShape shape;
  shape.kind = SectionShape::Kind::sheet_rib;
  shape.wall = 0.5 * mm;
  shape.height = 40 * mm;
  const Section s = section_of(shape, 0);
  CHECK(s.area == Approx(20 * mm2));
  CHECK(s.inertia_up == Approx(0.5 * 64000 / 12 * mm4));
  CHECK(s.inertia_flat == Approx(40 * 0.125 / 12 * mm4));
  CHECK(s.torsion == Approx(40 * 0.125 / 3 * mm4));
}

TEST_CASE("flanges stiffen a pressed rib against bending up and down by area times height squared") {
  SectionShape shape;
  shape.kind = SectionShape::Kind::sheet_rib;
  shape.wall = 0.5 * mm;
  shape.width = 12 * mm;
  shape.height = 40 * mm;
  const Section s = section_of(shape, 0);
  const double flanges = 2 * 12 * 0.5 * 20 * 20;  // 2 A (h/2)^2 [mm^4], their own inertia left out
  frame.number("Pressed rib 40 x 12 x 0.5 mm", "inertia up and down [mm^4]", "A (h/2)^2, derived here",
               0.5 * 64000 / 12 + flanges, s.inertia_up / mm4, 1e-3, "the flanges' own inertia is left out by hand");
}

namespace {

// Worst stress [Pa] at the root of a cantilever along y whose tip is pushed across by `force`, `turned` from up towards
// flat, and pulled along by `pull`.
double stress_at_root(const Section& section, double length, double force, double turned, double pull) {
  BeamShape b;
  b.from = {0, 0, 0};
  b.to = {0, length, 0};
  b.up = Eigen::Vector3d::UnitZ();
  b.section = section;
  b.youngs_modulus = 70e9;
  b.shear_modulus = 26e9;
  Eigen::Matrix<double, 6, 1> load = Eigen::Matrix<double, 6, 1>::Zero();
  load.head<3>() << force * std::sin(turned), pull, force * std::cos(turned);
  BeamVector u = BeamVector::Zero();
  u.tail<6>() = beam_stiffness(b).bottomRightCorner<6, 6>().lu().solve(load);
  return end_stress(section, beam_forces(b, u, 0), 0);
}

}  // namespace

TEST_CASE("a tube bent obliquely is stressed as by the resultant of both moments, whatever the direction") {
  // Derived here: with moments M1 and M2 about two diameters the stress at the angle p of the rim is
  // (M1 cos p + M2 sin p) r/I, at most sqrt(M1^2 + M2^2) r/I. A force F at the tip bends the root by F L in all.
  const double length = 0.4, force = 12, pull = 150;
  const Section s = tube_section(12.7 * mm, 0.9 * mm);
  const double along = pull / s.area, bent = force * length * 6.35 * mm / s.inertia_up;
  for (double degrees : {0.0, 15.0, 45.0, 60.0, 90.0, 135.0})
    frame.number("Tube 12.7 x 0.9 mm bent obliquely and pulled, cantilever",
                 "worst stress, force " + std::to_string(static_cast<int>(degrees)) + " deg off vertical [MPa]",
                 "strength of materials, derived here", 1e-6 * (along + bent),
                 1e-6 * stress_at_root(s, length, force, degrees * std::acos(-1.0) / 180, pull), 1e-9);
}

TEST_CASE("a bar bent obliquely is stressed at a corner, where both bendings add") {
  // Derived here: both parts of the stress are largest at the same corner of a rectangle.
  const double length = 0.4, force = 12, turned = 0.7;
  SectionShape shape;
  shape.kind = SectionShape::Kind::bar;
  shape.width = 12 * mm;
  shape.height = 20 * mm;
  const double up = force * std::cos(turned) * length * 6 / (12 * 20 * 20 * mm3);
  const double flat = force * std::sin(turned) * length * 6 / (20 * 12 * 12 * mm3);
  CHECK(stress_at_root(section_of(shape, 0), length, force, turned, 0) == Approx(up + flat));
}

TEST_CASE("a wooden triangle has the properties of a triangle") {
  // About its centroid h w^3/36, about its own axis of symmetry w h^3/48. Torsion: of an equilateral one of side s
  // exactly sqrt(3)/80 s^4, greatest stress 20 T/s^3 (Saint-Venant); of a thin wedge w h^3/12 less 0.105 h^4 for its
  // blunt end (strip, whose blunt end takes 0.105 h^4: Saint-Venant's series).
  SectionShape s;
  s.kind = SectionShape::Kind::triangle;
  s.height = 20 * mm;
  s.width = 20 * std::sqrt(3.0) / 2 * mm;
  const Section even = section_of(s, 0);
  const std::string name = "Triangle with three sides of 20 mm", source = "Saint-Venant (1855), from memory";
  frame.number(name, "torsion constant [mm^4]", source, std::sqrt(3.0) / 80 * 160000, even.torsion / mm4, 1e-9);
  frame.number(name, "torsional modulus [mm^3]", source, 8000.0 / 20, even.torsion / even.reach_twist / mm3, 0.05,
               "Roark's estimate from the largest circle in a section");
  CHECK(even.inertia_up == Approx(even.inertia_flat));  // three axes of symmetry
  s.height = 4 * mm;
  s.width = 60 * mm;
  const Section wedge = section_of(s, 0);
  frame.number("Thin wedge 60 x 4 mm", "torsion constant [mm^4]", "thin strip and its blunt end, derived here",
               60 * 64 / 12.0 - 0.105 * 256, wedge.torsion / mm4, 0.01,
               "the taper's own small term is left out by hand");
  CHECK(wedge.inertia_up == Approx(60 * 64 / 48.0 * mm4));
  CHECK(wedge.inertia_flat == Approx(4 * 216000 / 36.0 * mm4));
  CHECK(wedge.reach_flat == Approx(40 * mm));
}

TEST_CASE("a wooden triangle shears by the energy of its shear stress") {
  // tau = V S/(I w), shear area V^2/(integral of tau^2). Towards the point (width z from 0 to 1, area 1/2, I 1/36):
  // tau = 12 V (z - z^2), integral 144 B(4, 3) = 2.4, so 5/6 of the area. Along the front (width u = 1 - 2|z|, I 1/48):
  // tau = 2 V u (3 - 2u), integral 4 (9/4 - 12/5 + 2/3) = 31/15, so 30/31. Summed here on 20000 strips.
  double to_point = 0, along = 0;
  constexpr int strips = 20000;
  for (int i = 0; i < strips; ++i) {
    const double z = (i + 0.5) / strips, step = 1.0 / strips;
    to_point += std::pow(36 * (z * z / 3 - z * z * z / 3) / z, 2) * z * step;
    const double u = z;  // both halves of the height, each du/2
    along += 2 * std::pow(48 * u * u * (3 - 2 * u) / 24 / u, 2) * u * step / 2;
  }
  SectionShape s;
  s.kind = SectionShape::Kind::triangle;
  s.height = 12 * mm;
  s.width = 30 * mm;
  const Section t = section_of(s, 0);
  const std::string name = "Wooden triangle 30 x 12 mm", source = "shear stress V S/(I w), summed here";
  frame.number(name, "shear area in the plane of the panel / area", source, 2 / to_point, t.shear_flat / t.area, 1e-6);
  frame.number(name, "shear area up and down / area", source, 2 / along, t.shear_up / t.area, 1e-6);
}

TEST_CASE("tubes and bars shear as Cowper found") {
  // Cowper, J. Appl. Mech. 33 (1966), from memory: thin tube 2(1+nu)/(4+3nu), solid circle 6(1+nu)/(7+6nu), rectangle
  // by energy 5/6.
  const double nu = 0.3;
  const Section thin = tube_with_shear(25.4 * mm, 0.05 * mm), rod = tube_with_shear(10 * mm, 5 * mm);
  const std::string source = "Cowper (1966), from memory, Poisson's ratio 0.3";
  frame.number("Thin tube", "shear area / area", source, 2 * (1 + nu) / (4 + 3 * nu), thin.shear_up / thin.area, 1e-4,
               "wall a five-hundredth of the diameter");
  frame.number("Solid rod", "shear area / area", source, 6 * (1 + nu) / (7 + 6 * nu), rod.shear_up / rod.area, 1e-9);
  SectionShape bar;
  bar.kind = SectionShape::Kind::bar;
  bar.width = 12 * mm, bar.height = 50 * mm;
  CHECK(section_of(bar, 0).shear_up == Approx(500 * mm2));
}

TEST_CASE("a capstrip rib with a web of other wood is a transformed section") {
  // Derived here: caps 12 x 5 mm, 40 mm over all, web 1.5 mm of wood with 0.8 of the E and 1.4 of the G, between the
  // caps (30 mm).
  SectionShape s;
  s.kind = SectionShape::Kind::capstrip_rib;
  s.width = 12 * mm, s.wall = 5 * mm, s.web = 1.5 * mm, s.height = 40 * mm;
  const Section rib = section_of(s, 0, SectionRatios{0.8, 1.4, 16});
  const std::string name = "Capstrip rib 40 x 12 mm, web of 0.8 E", source = "transformed section, derived here";
  frame.number(name, "area [mm^2]", source, 2 * 60 + 0.8 * 45, rib.area / mm2, 1e-9);
  frame.number(name, "inertia up and down [mm^4]", source,
               2 * (12 * 125 / 12.0 + 60 * 17.5 * 17.5) + 0.8 * 1.5 * 27000 / 12, rib.inertia_up / mm4, 1e-9);
  frame.number(name, "inertia flat [mm^4]", source, 2 * 5 * 1728 / 12.0 + 0.8 * 30 * 3.375 / 12, rib.inertia_flat / mm4,
               1e-9);
  CHECK(rib.reach_up == Approx(20 * mm));
  // The web carries the shear: its depth between the middles of the caps, and a little less for the caps' share of
  // energy.
  CHECK(rib.shear_up < 1.4 * 1.5 * 35 * mm2);
  CHECK(rib.shear_up > 0.85 * 1.4 * 1.5 * 35 * mm2);
}

TEST_CASE("the lattice of a truss rib gives as its sticks stretch") {
  // Derived here: V in a diagonal at the angle a is V/sin a, it stretches by V l/(E A sin a) and lets its panel of
  // length p = l cos a shear by V l/(E A sin^2 a): shear stiffness E A sin^2 a cos a (as Engesser's for built-up
  // columns, from memory).
  SectionShape s;
  s.kind = SectionShape::Kind::truss_rib;
  s.width = 6 * mm, s.wall = 6 * mm, s.web = 5 * mm, s.height = 46 * mm, s.hole_spacing = 40 * mm;
  const double e_over_g = 16;
  const Section rib = section_of(s, 0, SectionRatios{1, 1, e_over_g});
  // 40 mm between the middles of the caps, 40 mm pitch: 45 degrees.
  frame.number("Truss rib 46 mm, sticks 5 mm square at 45 deg", "shear stiffness / E [mm^2]", "lattice, derived here",
               25 * std::pow(0.5, 1.5), rib.shear_up / e_over_g / mm2, 1e-9);
  frame.number("Truss rib 46 mm, sticks 5 mm square at 45 deg", "inertia up and down [mm^4]",
               "caps about the middle, four fifths of it: judgement", 0.8 * 2 * (6 * 216 / 12.0 + 36 * 400),
               rib.inertia_up / mm4, 1e-9);
}
