// The beam element (docs/model.md, section 5): what must hold whatever its section. Closed forms are checked in
// tests/published.
#include "solver/frame/beam.hpp"
#include "tests/solver/chance.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

BeamShape some_beam(Chance& chance) {
  BeamShape b;
  b.from = chance.vector<3>(1);
  b.to = b.from + 0.3 * Eigen::Vector3d(chance.vector<3>(1).normalized());
  b.up = chance.vector<3>(1).normalized();
  b.section = {6e-5, 4e-9, 1.5e-9, 2e-9, 0.008, 0.006, 0.005};  // invented
  b.youngs_modulus = 70e9;
  b.shear_modulus = 26e9;
  return b;
}

BeamVector rigid(const BeamShape& b, const Eigen::Vector3d& move, const Eigen::Vector3d& turn) {
  BeamVector u;
  u << move + turn.cross(b.from), turn, move + turn.cross(b.to), turn;
  return u;
}

// How large the entries of a stiffness are against a motion.
double size(const BeamMatrix& k, const BeamVector& u) { return k.norm() * u.norm(); }

}  // namespace

TEST_CASE("moving a beam as a whole costs no force, hinged or not") {
  Chance chance(51);
  for (int i = 0; i < 20; ++i) {
    BeamShape b = some_beam(chance);
    if (i % 2) b.turn_from = hinge_end;
    if (i % 3 == 0) b.turn_to = hinge_end;
    const BeamMatrix k = beam_stiffness(b);
    const BeamVector u = rigid(b, chance.vector<3>(0.01), chance.vector<3>(0.01));
    CHECK((k * u).norm() < 1e-11 * size(k, u));
    const BeamForces f = beam_forces(b, u, 0);
    CHECK(std::abs(f.axial) + std::abs(f.twist) + std::abs(f.bend_up[0]) + std::abs(f.bend_flat[1]) <
          1e-11 * size(k, u));
  }
}

TEST_CASE("elastic stiffness is symmetric and lets only rigid motions pass") {
  Chance chance(52);
  for (int i = 0; i < 10; ++i) {
    const BeamMatrix k = beam_stiffness(some_beam(chance));
    CHECK((k - k.transpose()).norm() < 1e-12 * k.norm());
    const auto values = Eigen::SelfAdjointEigenSolver<BeamMatrix>(k).eigenvalues();
    CHECK(std::abs(values[5]) < 1e-9 * values[11]);
    CHECK(values[6] > 1e-7 * values[11]);
  }
}

TEST_CASE("geometric stiffness is symmetric, in proportion to the pull, and free under translation") {
  Chance chance(53);
  for (int i = 0; i < 20; ++i) {
    BeamShape b = some_beam(chance);
    if (i % 2) b.turn_from = hinge_end;
    if (i % 3 == 0) b.turn_to = hinge_end;
    const BeamMatrix g = beam_geometric_stiffness(b, 250);
    CHECK((g - g.transpose()).norm() < 1e-12 * g.norm());
    CHECK((beam_geometric_stiffness(b, -500) + 2 * g).norm() < 1e-12 * g.norm());
    const BeamVector u = rigid(b, chance.vector<3>(0.01), Eigen::Vector3d::Zero());
    CHECK((g * u).norm() < 1e-12 * size(g, u));
  }
}

TEST_CASE("a pulled beam turned as a whole asks for the couple of its pull") {
  Chance chance(54);
  for (int i = 0; i < 20; ++i) {
    BeamShape b = some_beam(chance);
    if (i % 2) b.turn_from = hinge_end;
    if (i % 3 == 0) b.turn_to = hinge_end;
    const double pull = 300;
    const Eigen::Vector3d along = (b.to - b.from).normalized(), turn = chance.vector<3>(0.01);
    const BeamVector f = beam_geometric_stiffness(b, pull) * rigid(b, Eigen::Vector3d::Zero(), turn);
    const Eigen::Vector3d sideways = pull * turn.cross(along);
    CHECK((f.segment<3>(6) - sideways).norm() < 1e-9 * pull);
    CHECK((f.segment<3>(0) + sideways).norm() < 1e-9 * pull);
    CHECK(f.segment<3>(3).norm() + f.segment<3>(9).norm() < 1e-9 * pull);
  }
}

TEST_CASE("pull stiffens a beam, push softens it") {
  Chance chance(55);
  const BeamShape b = some_beam(chance);
  for (int i = 0; i < 20; ++i) {
    const BeamVector u = chance.vector<12>(0.01);
    CHECK(u.dot(beam_geometric_stiffness(b, 100) * u) >= 0);
    CHECK(u.dot(beam_geometric_stiffness(b, -100) * u) <= 0);
  }
}

TEST_CASE("a hinge carries no bending moment, with or without pull, but turns about the axis are passed on") {
  Chance chance(56);
  for (int i = 0; i < 20; ++i) {
    BeamShape b = some_beam(chance);
    b.turn_from = hinge_end;
    if (i % 2) b.turn_to = hinge_end;
    const BeamVector u = chance.vector<12>(0.01);
    for (double pull : {0.0, 400.0, -150.0}) {
      const BeamForces f = beam_forces(b, u, pull);
      CHECK(std::abs(f.bend_up[0]) < 1e-8);
      CHECK(std::abs(f.bend_flat[0]) < 1e-8);
      if (i % 2) CHECK(std::abs(f.bend_up[1]) + std::abs(f.bend_flat[1]) < 1e-8 + 1e-3 * std::abs(pull) * 1e-3);
    }
    const Eigen::Vector3d along = (b.to - b.from).normalized();
    const double turned = (Eigen::Vector3d(u.segment<3>(9)) - Eigen::Vector3d(u.segment<3>(3))).dot(along);
    CHECK(beam_forces(b, u, 0).twist == Approx(b.shear_modulus * b.section.torsion / 0.3 * turned).epsilon(1e-9));
  }
}

TEST_CASE("a beam is the same beam from whichever end and in whichever axes it is seen") {
  Chance chance(57);
  const BeamShape b = some_beam(chance);
  BeamShape turned = b, reversed = b;
  const Eigen::Matrix3d r = Eigen::AngleAxisd(1.1, Eigen::Vector3d(1, 2, 3).normalized()).toRotationMatrix();
  turned.from = r * b.from, turned.to = r * b.to, turned.up = r * b.up;
  std::swap(reversed.from, reversed.to);
  BeamMatrix t = BeamMatrix::Zero(), swap = BeamMatrix::Zero();
  for (int i = 0; i < 4; ++i) t.block<3, 3>(3 * i, 3 * i) = r;
  swap.block<6, 6>(0, 6).setIdentity();
  swap.block<6, 6>(6, 0).setIdentity();
  const BeamMatrix k = beam_stiffness(b), g = beam_geometric_stiffness(b, 70);
  CHECK((beam_stiffness(turned) - t * k * t.transpose()).norm() < 1e-10 * k.norm());
  CHECK((beam_geometric_stiffness(turned, 70) - t * g * t.transpose()).norm() < 1e-10 * g.norm());
  CHECK((beam_stiffness(reversed) - swap * k * swap).norm() < 1e-10 * k.norm());
}

TEST_CASE("the forces of a beam do the work that its stiffness says") {
  Chance chance(58);
  for (int i = 0; i < 10; ++i) {
    BeamShape b = some_beam(chance);
    const BeamVector u = chance.vector<12>(0.001);
    const BeamVector f = beam_stiffness(b) * u;
    const Eigen::Vector3d along = (b.to - b.from).normalized();
    const BeamForces r = beam_forces(b, u, 0);
    CHECK(r.axial == Approx(Eigen::Vector3d(f.segment<3>(6)).dot(along)));
    CHECK(r.twist == Approx(Eigen::Vector3d(f.segment<3>(9)).dot(along)));
    // Bending moments at an end, both together, whatever the signs.
    const Eigen::Vector3d m = f.segment<3>(9);
    CHECK(std::hypot(r.bend_up[1], r.bend_flat[1]) == Approx((m - m.dot(along) * along).norm()));
  }
}

TEST_CASE("energy from the deformations is that of the stiffness, and of a rigid motion nothing, far below rounding") {
  Chance chance(59);
  for (int i = 0; i < 20; ++i) {
    BeamShape b = some_beam(chance);
    if (i % 2) b.turn_from = hinge_end;
    if (i % 3 == 0) b.turn_to = hinge_end;
    const BeamVector u = chance.vector<12>(0.01);
    const BeamMatrix k = beam_stiffness(b);
    CHECK(beam_energy(b, u) == Approx(0.5 * u.dot(k * u)));
    const BeamVector r = rigid(b, chance.vector<3>(0.01), chance.vector<3>(0.01));
    CHECK(beam_energy(b, r) < 1e-28 * r.dot(k.diagonal().cwiseProduct(r)));
  }
}

namespace {

// The same beam with its end rotations as unknowns of their own (12 to 15: up and flat of the first end, then of the
// second), tied to the joints by springs: what condensing must give.
struct Uncondensed {
  Eigen::MatrixXd k = Eigen::MatrixXd::Zero(16, 16), back;  // back: of the 12, all 16
  BeamMatrix stiffness;

  Uncondensed(const BeamShape& b, const BeamMatrix& rigid) {
    const int slopes[4] = {4, 5, 10, 11};
    const double springs[4] = {b.turn_from.up, b.turn_from.flat, b.turn_to.up, b.turn_to.flat};
    int own[12];
    for (int i = 0; i < 12; ++i) own[i] = i;
    for (int s = 0; s < 4; ++s) own[slopes[s]] = 12 + s;
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j < 12; ++j) k(own[i], own[j]) += rigid(i, j);
    for (int s = 0; s < 4; ++s) {
      k(slopes[s], slopes[s]) += springs[s], k(12 + s, 12 + s) += springs[s];
      k(slopes[s], 12 + s) -= springs[s], k(12 + s, slopes[s]) -= springs[s];
    }
    back = Eigen::MatrixXd::Identity(16, 12);
    back.bottomRows(4) = -k.bottomRightCorner(4, 4).lu().solve(k.bottomLeftCorner(4, 12));
    stiffness = back.transpose() * k * back;
  }
};

// Along x, up along z: beam axes are panel axes.
BeamShape springy_beam(Chance& chance) {
  BeamShape b = some_beam(chance);
  b.from = {0, 0, 0}, b.to = {0.3, 0, 0}, b.up = {0, 0, 1};
  b.section.shear_up = 3e-5, b.section.shear_flat = 2e-5;
  const auto spring = [&] { return std::pow(10, 1 + 2 * chance.vector<1>(1)[0]); };  // 0.1 to 1000 N m/rad
  b.turn_from = {spring(), spring()}, b.turn_to = {spring(), spring()};
  return b;
}

BeamShape with_rigid_ends(BeamShape b) {
  b.turn_from = b.turn_to = EndTurn{};
  return b;
}

}  // namespace

TEST_CASE("ends on springs are condensed out: stiffness, energy, shapes under pull and end forces are of one beam") {
  Chance chance(61);
  for (int i = 0; i < 20; ++i) {
    const BeamShape b = springy_beam(chance), rigid_ends = with_rigid_ends(b);
    const Uncondensed whole(b, beam_stiffness(rigid_ends));
    const BeamMatrix k = beam_stiffness(b);
    CHECK((k - whole.stiffness).norm() < 1e-10 * k.norm());
    const BeamVector u = chance.vector<12>(0.01);
    CHECK(beam_energy(b, u) == Approx(0.5 * u.dot(whole.stiffness * u)));
    // Slopes of the beam's own ends.
    const Eigen::VectorXd all = whole.back * u;
    BeamVector ends = u;
    ends[4] = all[12], ends[5] = all[13], ends[10] = all[14], ends[11] = all[15];
    CHECK(u.dot(beam_geometric_stiffness(b, 80) * u) ==
          Approx(ends.dot(beam_geometric_stiffness(rigid_ends, 80) * ends)));
    const BeamForces f = beam_forces(b, u, 0);
    CHECK(f.bend_up[0] == Approx(b.turn_from.up * (u[4] - all[12])));
    CHECK(f.bend_flat[1] == Approx(b.turn_to.flat * (u[11] - all[15])));
    const BeamVector r = rigid(b, chance.vector<3>(0.01), chance.vector<3>(0.01));
    CHECK(beam_energy(b, r) < 1e-28 * r.dot(beam_stiffness(rigid_ends).diagonal().cwiseProduct(r)));
  }
}

TEST_CASE("the end forces of a beam on springs, pulled or pushed, are those of its stiffness under that force") {
  Chance chance(63);
  for (int i = 0; i < 20; ++i) {
    BeamShape b = springy_beam(chance);
    if (i % 4 == 1) b.turn_from = hinge_end;
    if (i % 4 == 2) b.turn_to = EndTurn{};
    const BeamVector u = chance.vector<12>(0.01);
    for (double pull : {0.0, 400.0, -150.0}) {
      const BeamVector f = (beam_stiffness(b) + beam_geometric_stiffness(b, pull)) * u;
      const BeamForces r = beam_forces(b, u, pull);
      CHECK(r.bend_up[0] == Approx(f[4]).margin(1e-9));
      CHECK(r.bend_flat[0] == Approx(-f[5]).margin(1e-9));
      CHECK(r.bend_up[1] == Approx(-f[10]).margin(1e-9));
      CHECK(r.bend_flat[1] == Approx(f[11]).margin(1e-9));
    }
  }
}

TEST_CASE("a load spread along a beam on springs turns its ends as the uncondensed beam does") {
  Chance chance(62);
  for (int i = 0; i < 10; ++i) {
    const BeamShape b = springy_beam(chance);
    const Uncondensed whole(b, beam_stiffness(with_rigid_ends(b)));
    const Eigen::Vector3d from = chance.vector<3>(300), to = chance.vector<3>(300);
    // Clamped moments, with the sign that turns the ends: what a beam with rigid ends holds against.
    const BeamForces clamped = beam_forces(with_rigid_ends(b), BeamVector::Zero(), 0, {from, to});
    Eigen::Vector4d moments(clamped.bend_up[0], -clamped.bend_flat[0], -clamped.bend_up[1], clamped.bend_flat[1]);
    const Eigen::Vector4d turned = whole.k.bottomRightCorner(4, 4).lu().solve(-moments);
    const BeamForces f = beam_forces(b, BeamVector::Zero(), 0, {from, to});
    CHECK(f.bend_up[0] == Approx(-b.turn_from.up * turned[0]));
    CHECK(f.bend_flat[0] == Approx(b.turn_from.flat * turned[1]));
    CHECK(f.bend_up[1] == Approx(b.turn_to.up * turned[2]));
    CHECK(f.bend_flat[1] == Approx(-b.turn_to.flat * turned[3]));
  }
}

TEST_CASE("a stiff spring is a rigid end, a spring of nothing a hinge") {
  Chance chance(63);
  BeamShape b = springy_beam(chance), hinged = with_rigid_ends(b);
  const BeamMatrix rigid_k = beam_stiffness(hinged);
  b.turn_from = b.turn_to = {1e15, 1e15};
  CHECK((beam_stiffness(b) - rigid_k).norm() < 1e-9 * rigid_k.norm());
  b.turn_from = {1e-12, 1e-12};
  hinged.turn_from = hinge_end;
  CHECK((beam_stiffness(b) - beam_stiffness(hinged)).norm() < 1e-9 * rigid_k.norm());
}

TEST_CASE("with shear a falling load clamps the ends as sixty-four short pieces under their lumps do") {
  Chance chance(64);
  BeamShape b = with_rigid_ends(springy_beam(chance));
  const double length = 0.3, q = 300;
  constexpr int pieces = 64;
  const int n = 6 * (pieces + 1);
  Eigen::MatrixXd k = Eigen::MatrixXd::Zero(n, n);
  Eigen::VectorXd f = Eigen::VectorXd::Zero(n);
  BeamShape piece = b;
  piece.to = {length / pieces, 0, 0};
  for (int e = 0; e < pieces; ++e) k.block<12, 12>(6 * e, 6 * e) += beam_stiffness(piece);
  for (int e = 1; e < pieces; ++e) f[6 * e + 2] = q * (1 - static_cast<double>(e) / pieces) * length / pieces;
  Eigen::VectorXd u = Eigen::VectorXd::Zero(n);
  u.segment(6, n - 12) = k.block(6, 6, n - 12, n - 12).ldlt().solve(f.segment(6, n - 12));
  const Eigen::VectorXd held = k * u;
  const BeamForces forces = beam_forces(b, BeamVector::Zero(), 0, {{0, 0, q}, {0, 0, 0}});
  CHECK(std::abs(forces.bend_up[0]) == Approx(std::abs(held[4])).epsilon(1e-3));
  CHECK(std::abs(forces.bend_up[1]) == Approx(std::abs(held[n - 2])).epsilon(1e-3));
}

TEST_CASE("held warping stiffens a beam against twist and nothing else") {
  Chance chance(65);
  BeamShape b = springy_beam(chance), gained = b;
  gained.twist_gain = 3;
  const BeamMatrix more = beam_stiffness(gained) - beam_stiffness(b);
  CHECK(more(3, 3) == Approx(2 * b.shear_modulus * b.section.torsion / 0.3));
  BeamVector u = chance.vector<12>(0.01);
  u[3] = u[9];
  CHECK((more * u).norm() < 1e-12);
  CHECK(beam_energy(gained, u) == Approx(beam_energy(b, u)));
  Section s = b.section;
  CHECK(gain_of_held_warping(s, b.youngs_modulus, b.shear_modulus, 0.3, 2) == 1);
  s.warping = 1e-13;
  const auto gain = [&](double length, int ends) {
    return gain_of_held_warping(s, b.youngs_modulus, b.shear_modulus, length, ends);
  };
  CHECK(gain(0.3, 2) > gain(0.3, 1));
  CHECK(gain(0.3, 1) > gain(0.6, 1));
  CHECK(gain(100, 2) == Approx(1).margin(0.02));
}

TEST_CASE("on a round section two bendings are one") {
  Section s{1e-4, 2e-9, 2e-9, 4e-9, 0.01, 0.01, 0.01};
  s.round = true;
  BeamForces f;
  f.bend_up[0] = 3;
  f.bend_flat[0] = -4;
  CHECK(end_stress(s, f, 0) == Approx(5 * 0.01 / 2e-9));
  s.round = false;
  CHECK(end_stress(s, f, 0) == Approx(7 * 0.01 / 2e-9));
}

TEST_CASE("stress at an end adds pull, torsion and both bendings of that end") {
  const Section s{1e-4, 2e-9, 1e-9, 3e-9, 0.01, 0.005, 0.006};
  BeamForces f;
  f.axial = -100;
  CHECK(end_stress(s, f, 0) == Approx(1e6));
  f.bend_up[1] = -2;
  CHECK(end_stress(s, f, 1) == Approx(1e6 + 1e7));
  f.bend_flat[1] = 1;
  CHECK(end_stress(s, f, 1) == Approx(1e6 + 1e7 + 5e6));
  f.twist = 0.5;
  CHECK(end_stress(s, f, 1) == Approx(std::hypot(16e6, std::sqrt(3.0) * 1e6)));
  // The other end is not bent.
  CHECK(end_stress(s, f, 0) == Approx(std::hypot(1e6, std::sqrt(3.0) * 1e6)));
}

TEST_CASE("a load spread along a beam gives the clamped moments back that lumping takes off") {
  Chance chance(58);
  BeamShape b = some_beam(chance);
  const double l = (b.to - b.from).norm(), q = 300;
  const Eigen::Vector3d along = (b.to - b.from) / l;
  const Eigen::Vector3d up = (b.up - b.up.dot(along) * along).normalized(), across = up.cross(along);
  const BeamVector still = BeamVector::Zero();
  // Even: q l^2/12 at both ends. What lies along the axis does nothing.
  const BeamForces even = beam_forces(b, still, 0, {q * across + 50 * along, q * across + 50 * along});
  CHECK(even.bend_flat[0] == Approx(q * l * l / 12));
  CHECK(even.bend_flat[1] == Approx(q * l * l / 12));
  CHECK(std::abs(even.bend_up[0]) < 1e-12);
  CHECK(std::abs(even.axial) < 1e-9);
  // From q to nothing: q l^2/20 and q l^2/30.
  const BeamForces falling = beam_forces(b, still, 0, {q * up, Eigen::Vector3d::Zero()});
  CHECK(std::abs(falling.bend_up[0]) == Approx(q * l * l / 20));
  CHECK(std::abs(falling.bend_up[1]) == Approx(q * l * l / 30));
  CHECK(falling.bend_up[0] * falling.bend_up[1] > 0);
  // Hinged at one end: q l^2/8 at the other. Hinged at both: nothing.
  b.turn_from = hinge_end;
  const BeamForces propped = beam_forces(b, still, 0, {q * across, q * across});
  CHECK(std::abs(propped.bend_flat[0]) < 1e-9);
  CHECK(propped.bend_flat[1] == Approx(q * l * l / 8));
  b.turn_to = hinge_end;
  const BeamForces simple = beam_forces(b, still, 0, {q * across, q * across});
  CHECK(std::abs(simple.bend_flat[0]) < 1e-9);
  CHECK(std::abs(simple.bend_flat[1]) < 1e-9);
}
