// Sections from shapes: what holds for any size. Tables and closed forms are checked in tests/published.
#include "solver/statement/member_section.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace evenpull;

namespace {

using Kind = SectionShape::Kind;

const std::vector<Kind> all_kinds = {Kind::tube,     Kind::bar,       Kind::sheet_rib,   Kind::folded_edge,
                                     Kind::channel,  Kind::angle,     Kind::hat,         Kind::i_section,
                                     Kind::triangle, Kind::truss_rib, Kind::capstrip_rib};

SectionShape shape(Kind kind) {
  SectionShape s;
  s.kind = kind;
  s.outside_diameter = 0.02;
  s.wall = 0.0008;
  s.width = 0.018;
  s.height = 0.006;
  s.flange = 0.007;
  s.web = 0.0012;
  if (kind == Kind::truss_rib) s.hole_spacing = 0.02;
  return s;
}

std::vector<double*> sizes_of(SectionShape& s) {
  return {&s.outside_diameter, &s.wall, &s.width, &s.height,      &s.flange, &s.web,
          &s.fold_radius,      &s.lip,  &s.hole,  &s.hole_spacing};
}

void check_scaled(const Section& one, const Section& big, double k) {
  CHECK(big.area == Approx(one.area * k * k));
  CHECK(big.inertia_up == Approx(one.inertia_up * std::pow(k, 4)));
  CHECK(big.inertia_flat == Approx(one.inertia_flat * std::pow(k, 4)));
  CHECK(big.torsion == Approx(one.torsion * std::pow(k, 4)));
  CHECK(big.reach_up == Approx(one.reach_up * k));
  CHECK(big.reach_flat == Approx(one.reach_flat * k));
  CHECK(big.reach_twist == Approx(one.reach_twist * k));
  CHECK(big.shear_up == Approx(one.shear_up * k * k));
  CHECK(big.shear_flat == Approx(one.shear_flat * k * k));
  CHECK(big.warping == Approx(one.warping * std::pow(k, 6)).margin(1e-30));
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
  for (Kind kind : all_kinds) {
    SectionShape a = shape(kind), b = a;
    const double k = 2;
    for (double* size : sizes_of(b)) *size *= k;
    check_scaled(section_of(a, 0), section_of(b, 0), k);
  }
  std::vector<SectionPoint> a = circle(0.02, 20), b = circle(0.06, 20);
  check_scaled(closed_section(a, 0.001), closed_section(b, 0.003), 3);
}

TEST_CASE("all properties of every shape are positive") {
  for (Kind kind : all_kinds) {
    INFO(static_cast<int>(kind));
    const Section s = section_of(shape(kind), 0.03);
    for (double v : {s.area, s.inertia_up, s.inertia_flat, s.torsion, s.reach_up, s.reach_flat, s.reach_twist,
                     s.shear_up, s.shear_flat})
      CHECK(v > 0);
    CHECK(s.warping >= 0);
  }
}

TEST_CASE("no shear area of one material is more than the area") {
  for (Kind kind : all_kinds) {
    if (kind == Kind::truss_rib) continue;  // its lattice is not part of the area
    const Section s = section_of(shape(kind), 0.03);
    CHECK(s.shear_up <= s.area);
    CHECK(s.shear_flat <= s.area);
  }
}

TEST_CASE("a channel, a sheet rib and the walls of both are one section") {
  SectionShape rib = shape(Kind::sheet_rib), channel = shape(Kind::channel);
  rib.height = 0.03;
  channel.height = rib.height + rib.wall;  // measured over all
  channel.width = rib.width + rib.wall / 2;
  const Section a = section_of(rib, 0), b = section_of(channel, 0);
  CHECK(b.area == Approx(a.area));
  CHECK(b.inertia_up == Approx(a.inertia_up).epsilon(2e-3));  // a rib leaves out its flanges' own thickness
  CHECK(b.inertia_flat == Approx(a.inertia_flat));
  CHECK(b.torsion == Approx(a.torsion));
  CHECK(b.reach_flat == Approx(a.reach_flat - rib.wall / 2));  // a rib adds half the sheet at the flanges' edges too
  CHECK(b.warping == Approx(a.warping));
  CHECK(b.shear_up == Approx(a.shear_up));
}

TEST_CASE("a fold of no radius is the sharp one; a round one with legs as a rule measures them is no weaker") {
  SectionShape sharp = shape(Kind::folded_edge), bent = sharp;
  sharp.wall = bent.wall = 0.0005;
  sharp.height = bent.height = 0.008;
  bent.fold_radius = 1e-7;
  CHECK(section_of(bent, 0).inertia_flat == Approx(section_of(sharp, 0).inertia_flat).epsilon(0.08));
  CHECK(section_of(bent, 0).inertia_up == Approx(section_of(sharp, 0).inertia_up).epsilon(0.08));
  for (double radius : {0.5e-3, 1e-3, 2e-3, 3e-3}) {
    bent.fold_radius = radius;
    const Section round = section_of(bent, 0), corner = section_of(sharp, 0);
    CHECK(round.inertia_flat / round.reach_flat > 0.97 * corner.inertia_flat / corner.reach_flat);
    CHECK(round.inertia_flat > 0.97 * corner.inertia_flat);
    CHECK(round.inertia_up > 0.97 * corner.inertia_up);
  }
}

TEST_CASE("a round fold whose legs are drawn to the corner they would meet in is far weaker than that corner") {
  SectionShape sharp = shape(Kind::folded_edge), bent = sharp;
  sharp.wall = bent.wall = 0.0005;
  sharp.width = 0.025;
  sharp.height = bent.height = 0.010;
  const double radius = 1.5e-3, half_angle = std::asin(0.2);
  bent.fold_radius = radius - bent.wall / 2;
  bent.width = sharp.width - radius / std::tan(half_angle) + radius + bent.wall / 2;
  CHECK(section_of(bent, 0).inertia_flat < 0.5 * section_of(sharp, 0).inertia_flat);
}

TEST_CASE("lips stiffen the flanges of a rib, holes weaken its web") {
  SectionShape plain = shape(Kind::sheet_rib), lipped = plain, pierced = plain, denser = plain;
  for (SectionShape* s : {&plain, &lipped, &pierced, &denser}) s->height = 0.05;
  lipped.lip = 0.004;
  pierced.hole = denser.hole = 0.025;
  pierced.hole_spacing = 0.06;
  denser.hole_spacing = 0.03;
  const Section p = section_of(plain, 0), l = section_of(lipped, 0), h = section_of(pierced, 0),
                d = section_of(denser, 0);
  CHECK(l.inertia_flat > 1.2 * p.inertia_flat);
  CHECK(l.inertia_up > p.inertia_up);
  CHECK(l.warping > p.warping);
  // Gross, net and between, by hand: of bending up only the hole's own inertia is missing.
  const double net = p.inertia_up - plain.wall * std::pow(pierced.hole, 3) / 12,
               share = pierced.hole / pierced.hole_spacing;
  CHECK(h.inertia_up == Approx(1 / ((1 - share) / p.inertia_up + share / net)));
  CHECK(h.inertia_up / h.reach_up == Approx(net / p.reach_up));  // stress beside the hole
  CHECK(h.area == Approx(p.area - plain.wall * pierced.hole));
  CHECK(h.inertia_flat < p.inertia_flat);
  CHECK(h.inertia_flat / h.reach_flat < p.inertia_flat / p.reach_flat);
  CHECK(d.inertia_up < h.inertia_up);
  CHECK(d.shear_up < h.shear_up);
}

TEST_CASE("a hole wider than a thin end of the rib has room for is cut smaller there") {
  SectionShape s = shape(Kind::sheet_rib);
  s.height = 0;
  s.hole = 0.025;
  s.hole_spacing = 0.05;
  for (double depth : {0.004, 0.01, 0.025, 0.03}) {
    const Section here = section_of(s, depth);
    CHECK(here.inertia_up > 0);
    CHECK(here.inertia_flat > 0);
    CHECK(here.shear_up > 0);
  }
}

TEST_CASE("a capped rib goes over into a solid one where its caps meet") {
  for (Kind kind : {Kind::i_section, Kind::capstrip_rib}) {
    SectionShape s = shape(kind);
    s.height = 0;
    const double caps = 2 * s.wall;
    CHECK(section_of(s, caps * (1 + 1e-9)).inertia_up == Approx(section_of(s, caps).inertia_up));
    CHECK(section_of(s, 0.6 * caps).area == Approx(s.width * 0.6 * caps));
  }
}

TEST_CASE("a web of the same material changes nothing, a softer one weakens") {
  const SectionShape s = shape(Kind::capstrip_rib);
  const Section one = section_of(s, 0), same = section_of(s, 0, SectionRatios{1, 1, 16}),
                soft = section_of(s, 0, SectionRatios{0.5, 0.5, 16});
  CHECK(same.inertia_up == one.inertia_up);
  CHECK(same.shear_up == one.shear_up);
  CHECK(soft.inertia_up < one.inertia_up);
  CHECK(soft.shear_up < 0.7 * one.shear_up);  // half the web, and caps that shear a little
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
