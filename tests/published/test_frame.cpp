// Small frames in space with hand solutions.
#include "tests/published/small_frame.hpp"
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr double e = tube_modulus, g = 26e9;

Section tube() { return tube_section(12.7e-3, 0.9e-3); }

// Members that neither stretch nor twist measurably, as textbook frames assume.
Section inextensible(Section s) {
  s.area *= 1e6;
  return s;
}

constexpr book::Chapter frame{"Frame"};

constexpr double rounding = 1e-8;  // the closed form is exact for the element

}  // namespace

TEST_CASE("a cantilever bends by PL^3/3EI, twists by TL/GJ and stretches by NL/EA in any direction") {
  const Section s = tube();
  const double length = 0.7;
  int direction = 0;
  for (const Eigen::Vector3d& way :
       {Eigen::Vector3d(1, 0, 0), Eigen::Vector3d(0, 1, 0), Eigen::Vector3d(0.6, 0.64, 0.48)}) {
    SmallFrame f;
    f.joints = {{0.1, 0.2, -0.1}, Eigen::Vector3d(0.1, 0.2, -0.1) + length * way};
    f.add(0, 1, s, e, g, Eigen::Vector3d::UnitZ());
    const Eigen::Vector3d across = way.unitOrthogonal();
    Eigen::VectorXd load = Eigen::VectorXd::Zero(12);
    load.segment<3>(6) = 5 * across + 40 * way;
    load.segment<3>(9) = 2 * way;
    const Eigen::VectorXd u = f.solve(load, {0});
    const std::string check = "Cantilever along the chord, along the span, at a slant",
                      along[3] = {"along the chord: ", "along the span: ", "at a slant: "};
    const std::string start = along[direction++];
    frame.number(check, start + "deflection over PL^3/3EI [1]", "derived here", 1,
                 u.segment<3>(6).dot(across) / (5 * length * length * length / (3 * e * s.inertia_up)), rounding);
    frame.number(check, start + "twist over TL/GJ [1]", "derived here", 1,
                 u.segment<3>(9).dot(way) / (2 * length / (g * s.torsion)), rounding);
    frame.number(check, start + "stretch over NL/EA [1]", "derived here", 1,
                 u.segment<3>(6).dot(way) / (40 * length / (e * s.area)), rounding);
    const BeamForces r = f.forces(0, u);
    CHECK(r.axial == Approx(40));
    CHECK(std::abs(r.twist) == Approx(2));
    CHECK(std::hypot(r.bend_up[0], r.bend_flat[0]) == Approx(5 * length));
  }
}

TEST_CASE("a bent cantilever loaded across its plane both bends and twists") {
  // Arm b clamped along y, arm a along x at its end, load P up at the free end: statically determinate, so
  // w = P (a^3 + b^3)/(3 EI) + P a^2 b/(GJ). Derived here.
  const Section s = tube();
  const double a = 0.3, b = 0.5, p = 8;
  SmallFrame f;
  f.joints = {{0, 0, 0}, {0, b, 0}, {a, b, 0}};
  f.add(0, 1, s, e, g, Eigen::Vector3d::UnitZ());
  f.add(1, 2, s, e, g, Eigen::Vector3d::UnitZ());
  Eigen::VectorXd load = Eigen::VectorXd::Zero(18);
  load[14] = p;
  const Eigen::VectorXd u = f.solve(load, {0});
  const double ei = e * s.inertia_up, gj = g * s.torsion;
  frame.number("Bent cantilever loaded across its plane", "deflection [mm]", "derived here",
               1e3 * (p * (a * a * a + b * b * b) / (3 * ei) + p * a * a * b / gj), 1e3 * u[14], rounding);
  CHECK(std::abs(f.forces(0, u).twist) == Approx(p * a));
  CHECK(std::abs(f.forces(0, u).bend_up[0]) == Approx(p * b));
  CHECK(std::abs(f.forces(1, u).bend_up[0]) == Approx(p * a));
}

TEST_CASE("a clamped portal frame pushed sideways shares its moments as the handbook says") {
  // Height h, width l, k = (I_beam/I_post)(h/l), push H at the beam: base moment H h/2 (3k + 1)/(6k + 1),
  // corner moment H h/2 3k/(6k + 1). Kleinlogel, Rahmenformeln, from memory; derived again by slope-deflection.
  Section post = inextensible(tube()), beam = post;
  beam.inertia_up *= 2;
  beam.inertia_flat *= 2;
  const double h = 0.4, l = 0.6, push = 30, k = 2 * h / l;
  SmallFrame f;
  f.joints = {{0, 0, 0}, {0, 0, h}, {l, 0, h}, {l, 0, 0}};
  f.add(0, 1, post, e, g, Eigen::Vector3d::UnitX());
  f.add(1, 2, beam, e, g, Eigen::Vector3d::UnitZ());
  f.add(3, 2, post, e, g, Eigen::Vector3d::UnitX());
  Eigen::VectorXd load = Eigen::VectorXd::Zero(24);
  load[6] = push;
  const Eigen::VectorXd u = f.solve(load, {0, 3});
  for (int post_piece : {0, 2}) {
    const BeamForces r = f.forces(post_piece, u);
    // A push at one corner reaches the other through a beam that is only nearly inextensible.
    const std::string check = "Clamped portal frame pushed sideways", post_name = post_piece == 0 ? "pushed" : "other",
                      source = "Kleinlogel, Rahmenformeln, from memory; derived again by slope-deflection",
                      note =
                          "the handbook's beam does not shorten; ours is a million times as stiff as the tube's area";
    frame.number(check, post_name + " post: moment at the base [N m]", source, push * h / 2 * (3 * k + 1) / (6 * k + 1),
                 std::abs(r.bend_up[0]), 1e-4, note);
    frame.number(check, post_name + " post: moment at the corner [N m]", source, push * h / 2 * 3 * k / (6 * k + 1),
                 std::abs(r.bend_up[1]), 1e-4, note);
  }
}

TEST_CASE("a rib with hinged ends carries pull but no bending into its neighbours") {
  const Section s = tube();
  SmallFrame f;
  f.joints = {{0, 0, 0}, {0.35, 0, 0}};
  f.add(0, 1, s, e, g, Eigen::Vector3d::UnitZ(), true, true);
  BeamVector turned = BeamVector::Zero();
  turned[4] = 0.01;
  turned[11] = -0.02;
  const BeamForces r = beam_forces(f.pieces[0].shape, turned, 0);
  CHECK(r.bend_up[0] == Approx(0).margin(1e-9));
  CHECK(r.bend_flat[1] == Approx(0).margin(1e-9));
  CHECK((beam_stiffness(f.pieces[0].shape) * turned).norm() == Approx(0).margin(1e-9));
}

TEST_CASE("a hinged far end leaves a cantilever three quarters of its rotational stiffness") {
  // 4 EI/L clamped at the far end, 3 EI/L hinged there: slope-deflection, derived here.
  const Section s = tube();
  const double length = 0.35;
  SmallFrame f;
  f.joints = {{0, 0, 0}, {length, 0, 0}};
  f.add(0, 1, s, e, g, Eigen::Vector3d::UnitZ(), false, false);
  f.add(0, 1, s, e, g, Eigen::Vector3d::UnitZ(), false, true);
  const double ei = e * s.inertia_up;
  CHECK(beam_stiffness(f.pieces[0].shape)(4, 4) == Approx(4 * ei / length));
  CHECK(beam_stiffness(f.pieces[1].shape)(4, 4) == Approx(3 * ei / length));
}
