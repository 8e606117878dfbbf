// Sections from shapes: what holds for any size. Tables and closed forms are checked in tests/published.
#include "solver/statement/section.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace evenpull;

namespace {

using Kind = SectionShape::Kind;

SectionShape shape(Kind kind) {
  SectionShape s;
  s.kind = kind;
  s.outside_diameter = 0.02;
  s.wall = 0.0008;
  s.width = 0.018;
  s.height = 0.006;
  return s;
}

void check_scaled(const Section& one, const Section& big, double k) {
  CHECK(big.area == Approx(one.area * k * k));
  CHECK(big.inertia_up == Approx(one.inertia_up * std::pow(k, 4)));
  CHECK(big.inertia_flat == Approx(one.inertia_flat * std::pow(k, 4)));
  CHECK(big.torsion == Approx(one.torsion * std::pow(k, 4)));
  CHECK(big.reach_up == Approx(one.reach_up * k));
  CHECK(big.reach_flat == Approx(one.reach_flat * k));
  CHECK(big.reach_twist == Approx(one.reach_twist * k));
}

std::vector<SectionPoint> circle(double radius, int points) {
  std::vector<SectionPoint> c;
  for (int i = 0; i < points; ++i)
    c.push_back(
        {radius * std::cos(2 * 3.14159265358979 * i / points), radius * std::sin(2 * 3.14159265358979 * i / points)});
  return c;
}

}  // namespace

TEST_CASE("a section drawn twice as large is the same section, twice as large") {
  for (Kind kind : {Kind::tube, Kind::bar, Kind::sheet_rib, Kind::folded_edge}) {
    SectionShape a = shape(kind), b = a;
    const double k = 2;
    b.outside_diameter *= k, b.wall *= k, b.width *= k, b.height *= k;
    check_scaled(section_of(a, 0), section_of(b, 0), k);
  }
  std::vector<SectionPoint> a = circle(0.02, 20), b = circle(0.06, 20);
  check_scaled(closed_section(a, 0.001), closed_section(b, 0.003), 3);
}

TEST_CASE("all properties of every shape are positive") {
  for (Kind kind : {Kind::tube, Kind::bar, Kind::sheet_rib, Kind::folded_edge}) {
    const Section s = section_of(shape(kind), 0.03);
    for (double v : {s.area, s.inertia_up, s.inertia_flat, s.torsion, s.reach_up, s.reach_flat, s.reach_twist})
      CHECK(v > 0);
  }
}

TEST_CASE("a height left at zero is the local depth of the panel") {
  for (Kind kind : {Kind::bar, Kind::sheet_rib}) {
    SectionShape open = shape(kind), stated = open;
    open.height = 0;
    stated.height = 0.031;
    CHECK(section_of(open, 0.031).inertia_up == section_of(stated, 0.5).inertia_up);
  }
}

TEST_CASE("a thin tube and a closed wall of many sides agree") {
  SectionShape t = shape(Kind::tube);
  t.wall = 0.0002;
  const Section tube = section_of(t, 0), wall = closed_section(circle(0.5 * (0.02 - 0.0002), 200), 0.0002);
  CHECK(wall.area == Approx(tube.area).epsilon(1e-3));
  CHECK(wall.inertia_up == Approx(tube.inertia_up).epsilon(2e-3));
  CHECK(wall.torsion == Approx(tube.torsion).epsilon(2e-3));
  CHECK(wall.reach_twist == Approx(tube.reach_twist).epsilon(0.02));  // thin wall: middle line for outside
}

TEST_CASE("a closed wall is the same in whatever order and from wherever it is walked") {
  std::vector<SectionPoint> d = {{0, 0}, {0.03, 0.02}, {0.08, 0.025}, {0.08, -0.02}, {0.02, -0.015}};
  const Section s = closed_section(d, 0.0006);
  std::vector<SectionPoint> other = d;
  std::rotate(other.begin(), other.begin() + 2, other.end());
  std::reverse(other.begin(), other.end());
  for (SectionPoint& p : other) p.x += 1.5, p.z -= 0.7;
  const Section o = closed_section(other, 0.0006);
  CHECK(o.area == Approx(s.area));
  CHECK(o.inertia_up == Approx(s.inertia_up));
  CHECK(o.inertia_flat == Approx(s.inertia_flat));
  CHECK(o.torsion == Approx(s.torsion));
}

TEST_CASE("properties that were measured are taken as they are") {
  SectionShape s = shape(Kind::properties);
  s.given = {1, 2, 3, 4, 5, 6, 7};
  CHECK(section_of(s, 0.1).inertia_flat == 3);
  CHECK(section_of(s, 0.1).reach_twist == 7);
}
