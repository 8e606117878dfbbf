// Thin-walled sections against Vlasov's closed forms and elementary shear flow.
#include "solver/statement/section_shapes.hpp"
#include "solver/statement/section_walls.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace evenpull;

namespace {

constexpr double mm = 1e-3, mm2 = 1e-6, mm4 = 1e-12, mm6 = 1e-18;
constexpr double pi = 3.14159265358979323846;
constexpr double exact = 1e-9;  // straight walls: the routine has no error but rounding

constexpr book::Chapter frame{"Frame"};
const std::string vlasov = "Vlasov, Thin-Walled Elastic Beams (closed form from memory)";

/// Web h between two flanges b to one side, middle lines [mm].
WallSection channel(double h, double b, double t) {
  return one_line({{b * mm, h / 2 * mm}, {0, h / 2 * mm}, {0, -h / 2 * mm}, {b * mm, -h / 2 * mm}}, t * mm);
}

std::vector<SectionPoint> arc(double radius, double from, double to, int pieces) {
  std::vector<SectionPoint> line;
  for (int i = 0; i <= pieces; ++i) {
    const double a = from + (to - from) * i / pieces;
    line.push_back({radius * std::cos(a), radius * std::sin(a)});
  }
  return line;
}

}  // namespace

TEST_CASE("a channel has Vlasov's warping constant and shear centre") {
  // C_w = t b^3 h^2/12 (3b + 2h)/(6b + h), shear centre e = 3b^2/(6b + h) behind the web, J = sum of b t^3/3.
  const double h = 50, b = 12, t = 0.5;
  const OpenWalls c = open_section(channel(h, b, t));
  const std::string name = "Channel 50 x 12 x 0.5 mm, middle lines";
  frame.number(name, "torsion constant [mm^4]", "sum of b t^3/3", (h + 2 * b) * t * t * t / 3, c.section.torsion / mm4,
               exact);
  frame.number(name, "warping constant [mm^6]", vlasov, t * b * b * b * h * h / 12 * (3 * b + 2 * h) / (6 * b + h),
               c.section.warping / mm6, exact);
  frame.number(name, "shear centre behind the web [mm]", vlasov, 3 * b * b / (6 * b + h), -c.shear_centre.x / mm,
               exact);
  CHECK(c.shear_centre.z == Approx(0).margin(1e-12));
}

TEST_CASE("a channel shears as the energy of its shear flow says") {
  // Derived here. Shear V up: q = V t (h/2) s/I in a flange at s from its free edge, q = V t (b h/2 + (h y - y^2)/2)/I
  // in the web at y from its upper end, I = t (h^3/12 + b h^2/2). Shear area = V^2/(integral of q^2/t).
  const double h = 50, b = 12, t = 0.5, i = t * (h * h * h / 12 + b * h * h / 2), root = b * h / 2;
  const double flanges = h * h * b * b * b / 6;
  const double web = root * root * h + root * h * h * h / 6 + std::pow(h, 5) / 120;
  const OpenWalls c = open_section(channel(h, b, t));
  frame.number("Channel 50 x 12 x 0.5 mm, middle lines", "shear area up and down / area", "shear flow, derived here",
               i * i / (t * (flanges + web)) / ((h + 2 * b) * t), c.section.shear_up / c.section.area, exact);
}

TEST_CASE("a Z warps and bends askew as its closed forms say") {
  // C_w = t b^3 h^2/12 (b + 2h)/(2b + h); product of inertia t b^2 h/2: the lesser principal inertia counts both ways.
  const double h = 40, b = 15, t = 0.8;
  const WallSection z =
      one_line({{b * mm, h / 2 * mm}, {0, h / 2 * mm}, {0, -h / 2 * mm}, {-b * mm, -h / 2 * mm}}, t * mm);
  const OpenWalls c = open_section(z);
  const double zz = t * (h * h * h / 12 + b * h * h / 2), xx = 2 * t * b * b * b / 3, xz = t * b * b * h / 2;
  const double least = 0.5 * (zz + xx) - std::hypot(0.5 * (zz - xx), xz);
  const std::string name = "Z section 40 x 15 x 0.8 mm, middle lines";
  frame.number(name, "warping constant [mm^6]", vlasov, t * b * b * b * h * h / 12 * (b + 2 * h) / (2 * b + h),
               c.section.warping / mm6, exact);
  frame.number(name, "lesser principal inertia [mm^4]", "Mohr's circle, derived here", least,
               c.section.inertia_up / mm4, 5e-3, "the walls' own thickness is left out by hand");
  CHECK(c.section.inertia_flat == c.section.inertia_up);
}

TEST_CASE("an equal angle bends about its askew axis and does not warp") {
  // Thin legs b: about axes along the legs 5 t b^3/24, product t b^3/8, principal t b^3/3 and t b^3/12. A moment about
  // a leg's axis alone: stress M (I_xx z - I_xz x)/(I_xx I_zz - I_xz^2); worst at the free end of the flat leg or the
  // corner.
  const double b = 20, t = 0.5;
  const OpenWalls c = open_section(one_line({{0, b * mm}, {0, 0}, {b * mm, 0}}, t * mm));
  const std::string name = "Angle 20 x 20 x 0.5 mm, middle lines", by_hand = "thin legs, derived here";
  frame.number(name, "lesser principal inertia [mm^4]", by_hand, t * b * b * b / 12, c.section.inertia_up / mm4, 3e-3,
               "the legs' own thickness is left out by hand");
  const double xx = 5 * t * b * b * b / 24, xz = -t * b * b * b / 8, d = xx * xx - xz * xz;
  double worst = 0;
  for (const auto& [x, z] :
       std::vector<std::pair<double, double>>{{-b / 4, 3 * b / 4}, {-b / 4, -b / 4}, {3 * b / 4, -b / 4}})
    worst = std::max(worst, std::abs(xx * z - xz * x) / d);
  frame.number(name, "stress per moment about the flat leg [1/mm^3]", by_hand, worst,
               c.section.reach_up / c.section.inertia_up * 1e-9, 0.03,
               "the legs' thickness, by which fibres lie further out, is left out by hand");
  CHECK(c.section.warping == 0);
  CHECK(c.shear_centre.x == Approx(0).margin(1e-3 * mm));
  CHECK(c.shear_centre.z == Approx(0).margin(1e-3 * mm));
}

TEST_CASE("an I section warps as two flanges do") {
  // C_w = t b^3 h^2/24: each flange bends in its plane, h/2 off.
  const double h = 40, b = 20, t = 1;
  const WallSection i{{{-b / 2 * mm, h / 2 * mm},
                       {0, h / 2 * mm},
                       {b / 2 * mm, h / 2 * mm},
                       {0, -h / 2 * mm},
                       {-b / 2 * mm, -h / 2 * mm},
                       {b / 2 * mm, -h / 2 * mm}},
                      {{0, 1, t * mm}, {1, 2, t * mm}, {1, 3, t * mm}, {4, 3, t * mm}, {3, 5, t * mm}}};
  frame.number("I section 40 x 20 x 1 mm, middle lines", "warping constant [mm^6]", vlasov, t * b * b * b * h * h / 24,
               open_section(i).section.warping / mm6, exact);
}

TEST_CASE("a slit tube has its shear centre a diameter behind it") {
  // Thin tube of radius r slit along its length: e = 2r from the middle, away from the slit; C_w = 2/3 pi (pi^2 - 6) t
  // r^5; J = 2/3 pi r t^3 (Timoshenko & Gere, Theory of Elastic Stability, from memory).
  const double r = 10, t = 0.4;
  const OpenWalls c = open_section(one_line(arc(r * mm, 0, 2 * pi, 400), t * mm));
  const std::string name = "Slit tube of radius 10 mm, 0.4 mm thick", source = "Timoshenko & Gere (1961), from memory";
  const std::string chords = "400 chords for the round";
  frame.number(name, "shear centre from the middle [mm]", source, 2 * r, -c.shear_centre.x / mm, 1e-3, chords);
  frame.number(name, "warping constant [mm^6]", source, 2.0 / 3 * pi * (pi * pi - 6) * t * std::pow(r, 5),
               c.section.warping / mm6, 1e-3, chords);
  frame.number(name, "torsion constant [mm^4]", source, 2.0 / 3 * pi * r * t * t * t, c.section.torsion / mm4, 1e-3,
               chords);
}

TEST_CASE("closed cells shear as their shear flow says") {
  // By energy: a thin round tube has half of its area (q = V sin a/(pi r)), a thin square box 5/12 (both derived here).
  const double side = 40 * mm, t = 0.5 * mm, r = 20 * mm;
  auto round = arc(r, 0, 2 * pi, 400);
  round.pop_back();
  const Section tube = closed_section(round, t), box = closed_section({{0, 0}, {side, 0}, {side, side}, {0, side}}, t);
  frame.number("Closed thin tube", "shear area / area", "shear flow, derived here", 0.5, tube.shear_up / tube.area,
               1e-3, "400 chords for the round");
  frame.number("Closed square box 40 x 0.5 mm", "shear area / area", "shear flow, derived here", 5.0 / 12,
               box.shear_up / box.area, exact);
  CHECK(box.shear_flat == Approx(box.shear_up));
}

TEST_CASE("a closed cell with a thicker web twists as Bredt found") {
  // J = 4 A^2/(sum of s/t); inertia about the axis through the middle of the web and the wall opposite.
  const double a = 40, t = 0.5, web = 1;
  const Section s =
      closed_section({{0, 0}, {a * mm, 0}, {a * mm, a * mm}, {0, a * mm}}, {{t * mm}, {web * mm}, {t * mm}, {t * mm}});
  const std::string name = "Closed square box 40 x 0.5 mm, one wall 1 mm";
  frame.number(name, "torsion constant [mm^4]", "Bredt (1896), from memory", 4 * std::pow(a, 4) / (3 * a / t + a / web),
               s.torsion / mm4, exact);
  frame.number(name, "inertia up and down [mm^4]", "thin walls, derived here",
               2 * t * a * a * a / 4 + (t + web) * a * a * a / 12, s.inertia_up / mm4, exact);
  const double centre = (2 * t * a * a / 2 + web * a * a) / (a * (3 * t + web));
  const double flat = 2 * t * (a * a * a / 12 + a * std::pow(a / 2 - centre, 2)) + t * a * centre * centre +
                      web * a * std::pow(a - centre, 2);
  frame.number(name, "inertia flat [mm^4]", "thin walls, derived here", flat, s.inertia_flat / mm4, exact);
}

TEST_CASE("a round fold takes of a folded edge what its middle line says") {
  // Two legs that touch an arc of the middle radius r, half angle b between leg and chord line. Arc of half angle a =
  // pi/2 - b: area 2 a r t, first moment 2 r^2 t sin a, second t r^3 (a +- sin a cos a). Legs of 25 mm to the sharp
  // corner that they would meet in, opening 10 mm: at r = 1.5 mm the edge has half of the sharp fold's inertia in the
  // plane of the panel.
  const double to_corner = 25, open = 10, t = 0.5, b = std::asin(open / 2 / to_corner);
  for (const double r : {1.5, 3.0}) {
    const double straight = to_corner - r / std::tan(b), a = pi / 2 - b, s = std::sin(b), c = std::cos(b);
    const double area = t * (2 * a * r + 2 * straight);
    const double x0 = r * s, x1 = r * s - straight * c, z0 = r * c, z1 = r * c + straight * s;
    const auto square = [](double from, double to) { return (from * from + from * to + to * to) / 3; };
    const double first = 2 * r * r * t * std::sin(a) + t * straight * (x0 + x1);
    const double flat =
        t * r * r * r * (a + std::sin(a) * std::cos(a)) + 2 * t * straight * square(x0, x1) - first * first / area;
    const double up = t * r * r * r * (a - std::sin(a) * std::cos(a)) + 2 * t * straight * square(z0, z1);
    SectionShape edge;
    edge.kind = SectionShape::Kind::folded_edge;
    edge.wall = t * mm;
    edge.fold_radius = (r - t / 2) * mm;
    edge.width = (straight + r + t / 2) * mm;
    edge.height = open * mm;
    const Section got = section_of(edge, 0);
    const std::string name =
        "Folded edge 25 x 0.5 mm, open 10 mm, middle radius " + std::to_string(r).substr(0, 3) + " mm";
    const std::string source = "legs and arc, derived here", note = "16 chords for the fold";
    frame.number(name, "area [mm^2]", source, area, got.area / mm2, 1e-3, note);
    frame.number(name, "inertia in the plane of the panel [mm^4]", source, flat, got.inertia_flat / mm4, 5e-3, note);
    frame.number(name, "inertia up and down [mm^4]", source, up, got.inertia_up / mm4, 5e-3, note);
  }
}
