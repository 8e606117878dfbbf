// Properties of cross sections against elementary formulas, computed here by hand.
#include "solver/frame/beam.hpp"
#include "solver/statement/section.hpp"
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"

#include <Eigen/LU>
#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;
using published::tube_section;

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
