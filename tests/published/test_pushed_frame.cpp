// A weight on one member of a bare frame against beam tables: the other members are a millionth as stiff, so that
// they carry nothing. Places lie between joints of the mesh and at them. Tables: Manual of Steel Construction (AISC),
// beam diagrams and formulas, from memory; what shear adds, P times the unit shear over kappa G A, is derived here by
// Castigliano's theorem.
#include "shop/push_frame.hpp"
#include "tests/support/book.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

constexpr double modulus = 68.9e9, shear_modulus = 26e9, span = 1.2, newtons = 20;
constexpr double carried = 1e-6;    // what the others are as stiff
constexpr double tolerance = 2e-5;  // what they carry

Section tube_of_edge(const Case& c) { return section_of(c.span_members[0].make.shape, 0); }

Support support(double at, std::array<bool, 6> hold) {
  Support s;
  s.kind = SupportKind::motions;
  s.station = at, s.hold = hold;
  return s;
}
constexpr std::array<bool, 6> clamped{true, true, true, true, true, true};
// Up and down alone; twist and what lies in the panel's plane, where nothing happens, are held at one end.
constexpr std::array<bool, 6> propped{false, false, true, false, false, false};
constexpr std::array<bool, 6> hinged{true, true, true, false, true, true};

Case edge_alone(const std::vector<Support>& held) {
  Case c;
  c.outline.leading_edge = {{0, 0}, {0, span}};
  c.outline.trailing_edge = {{0.3, 0}, {0.3, span}};
  c.profile = {{0, 0.01, 0.01}, {1, 0.01, 0.01}};
  c.materials = {{"stiff", modulus, shear_modulus, 240e6, Strength::yield},
                 {"soft", carried * modulus, carried * shear_modulus, 240e6, Strength::yield}};
  c.limits.yield_share = 0.5;
  MemberMake tube;
  tube.shape.kind = SectionShape::Kind::tube;
  tube.shape.outside_diameter = 0.0254, tube.shape.wall = 0.9e-3;
  MemberMake soft = tube;
  soft.material = 1;
  c.span_members = {{"leading edge", SpanRole::leading_edge, 0, tube},
                    {"trailing edge", SpanRole::trailing_edge, 1, soft}};
  for (const double y : {0.0, 0.4, 0.8, 1.2}) c.ribs.push_back({y, soft, {JointKind::rigid}, {JointKind::rigid}});
  c.while_ironed = c.in_use = held;
  c.cloth = sample::cloth();  // never laid on
  c.iron = {0.20, 0.10, 0.035, 6.0, 8.0};
  return c;
}

// Movement at `read` under the load at `at`, both along the edge.
double moved(const Case& c, double at, double read) {
  PushFrame frame(c, Held::while_ironed);
  frame.set_places({{false, 0, at}, {false, 0, read}});
  return frame.push(c, {}, {{0, newtons}}).front().down[1];
}

constexpr book::Chapter book_of_frame{"Frame"};

void enter(const std::string& check, const std::string& quantity, double published, double ours) {
  book_of_frame.number(check, quantity, "AISC beam diagrams and formulas, from memory; shear derived here",
                       1e3 * published, 1e3 * ours, tolerance, "the other members carry a few millionths");
}

}  // namespace

TEST_CASE("a weight on the free end of a bare edge lowers it by PL^3/3EI and its shear") {
  const Case c = edge_alone({support(0, clamped)});
  const Section s = tube_of_edge(c);
  const double ei = modulus * s.inertia_up, ga = shear_modulus * s.shear_up;
  const std::string check = "Bare edge under a weight, held at one end";
  enter(check, "at its end under a weight there [mm]", newtons * (std::pow(span, 3) / (3 * ei) + span / ga),
        moved(c, span, span));
  const double a = 0.537;  // between joints
  enter(check, "under a weight between ribs [mm]", newtons * (a * a * a / (3 * ei) + a / ga), moved(c, a, a));
  enter(check, "at its end under that weight [mm]", newtons * (a * a * (3 * span - a) / (6 * ei) + a / ga),
        moved(c, a, span));
}

TEST_CASE("a weight on a simply held bare edge lowers its middle by PL^3/48EI and its shear") {
  const Case c = edge_alone({support(0, hinged), support(span, propped)});
  const Section s = tube_of_edge(c);
  const double ei = modulus * s.inertia_up, ga = shear_modulus * s.shear_up;
  const std::string check = "Bare edge under a weight, held at both ends";
  enter(check, "middle [mm]", newtons * (std::pow(span, 3) / (48 * ei) + span / (4 * ga)),
        moved(c, span / 2, span / 2));
  const double a = 0.737, b = span - a, x = 0.311;  // x before the weight
  enter(check, "off the middle, read elsewhere [mm]",
        newtons * (b * x * (span * span - b * b - x * x) / (6 * ei * span) + b * x / (span * ga)), moved(c, a, x));
}

TEST_CASE("a weight on an edge clamped at one end and propped at the other lowers its middle by 7PL^3/768EI") {
  Case c = edge_alone({support(0, clamped), support(span, propped)});
  // The table knows no shear: stated as properties, the edge has none.
  Section s = tube_of_edge(c);
  s.shear_up = s.shear_flat = 0;
  c.span_members[0].make.shape.kind = SectionShape::Kind::properties;
  c.span_members[0].make.shape.given = s;
  enter("Bare edge under a weight, clamped and propped", "middle, without shear [mm]",
        newtons * 7 * std::pow(span, 3) / (768 * modulus * s.inertia_up), moved(c, span / 2, span / 2));
}
