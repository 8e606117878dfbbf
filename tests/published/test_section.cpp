// Properties of cross sections against elementary formulas, computed here by hand.
#include "solver/section.hpp"
#include "tests/published/straight_line.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using published::tube_section;

namespace {
constexpr double mm = 1e-3, mm2 = 1e-6, mm3 = 1e-9, mm4 = 1e-12;
// The tables below are printed to five digits.
constexpr double five_digits = 2e-5;
}  // namespace

TEST_CASE("thin tubes have the area, inertia and moduli of the annulus formulas") {
  // pi/4 (D^2 - d^2), pi/64 (D^4 - d^4), I/(D/2), 2 I: derived here.
  struct Row {
    double outside, area, inertia, modulus;
  };
  for (const Row& r :
       {Row{12.7, 33.364, 584.07, 91.980}, Row{9.525, 24.387, 229.24, 48.134}, Row{25.4, 69.272, 5204.6, 409.81}}) {
    const Section s = tube_section(r.outside * mm, 0.9 * mm);
    CAPTURE(r.outside);
    CHECK(s.area == Approx(r.area * mm2).epsilon(five_digits));
    CHECK(s.inertia_up == Approx(r.inertia * mm4).epsilon(five_digits));
    CHECK(s.inertia_flat == Approx(s.inertia_up));
    CHECK(s.inertia_up / s.reach_up == Approx(r.modulus * mm3).epsilon(five_digits));
    CHECK(s.torsion == Approx(2 * r.inertia * mm4).epsilon(five_digits));
    CHECK(s.torsion / s.reach_twist == Approx(2 * r.modulus * mm3).epsilon(five_digits));
  }
}

TEST_CASE("a square bar twists as Saint-Venant found") {
  // J = 0.140577 a^4, torsional modulus 0.208173 a^3 (Saint-Venant 1855; digits from summing his series: derived here).
  SectionShape shape;
  shape.kind = SectionShape::Kind::bar;
  shape.width = shape.height = 10 * mm;
  const Section s = section_of(shape, 0);
  // The fit in use is good to 0.2 % for J and 0.5 % for the modulus.
  CHECK(s.torsion == Approx(1405.77 * mm4).epsilon(2e-3));
  CHECK(s.torsion / s.reach_twist == Approx(208.173 * mm3).epsilon(5e-3));
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
  CHECK(s.area == Approx(4 * a * t));
  CHECK(s.torsion == Approx(a * a * a * t));
  CHECK(s.torsion / s.reach_twist == Approx(2 * a * a * t));
  CHECK(s.inertia_up == Approx(2.0 / 3 * a * a * a * t));
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
  CHECK(s.inertia_up == Approx((0.5 * 64000 / 12 + flanges) * mm4).epsilon(1e-3));
}
