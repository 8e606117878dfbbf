#include "solver/frame/beam.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace evenpull::inline solver {
namespace {

// Rows: beam axes 1 along, 2 flat (in the panel's plane), 3 up.
struct Axes {
  Eigen::Matrix3d rotation;
  double length = 0;
};

Axes axes_of(const BeamShape& b) {
  Axes a;
  const Eigen::Vector3d along = b.to - b.from;
  a.length = along.norm();
  assert(a.length > 0 && "a beam has no length");
  const Eigen::Vector3d e1 = along / a.length;
  Eigen::Vector3d up = b.up - b.up.dot(e1) * e1;
  if (up.norm() < 1e-6) up = Eigen::Vector3d::UnitX() - e1.x() * e1;
  const Eigen::Vector3d e3 = up.normalized();
  a.rotation.row(0) = e1;
  a.rotation.row(1) = e3.cross(e1);
  a.rotation.row(2) = e3;
  return a;
}

// Unknowns of one bending plane within the 12: deflection and slope at both ends. sign: +1 where slope = dv/dx.
struct Plane {
  int v1, t1, v2, t2;
  double sign;
};
constexpr Plane flat{1, 5, 7, 11, 1.0};
constexpr Plane upright{2, 4, 8, 10, -1.0};

void add_plane(BeamMatrix& k, const Plane& p, const Eigen::Matrix4d& m) {
  const int at[4] = {p.v1, p.t1, p.v2, p.t2};
  const double s[4] = {1, p.sign, 1, p.sign};
  for (int i = 0; i < 4; ++i)
    for (int j = 0; j < 4; ++j) k(at[i], at[j]) += s[i] * s[j] * m(i, j);
}

BeamMatrix local_elastic(const BeamShape& b, double l) {
  BeamMatrix k = BeamMatrix::Zero();
  const double ea = b.youngs_modulus * b.section.area / l, gj = b.shear_modulus * b.section.torsion / l;
  k(0, 0) = k(6, 6) = ea;
  k(0, 6) = k(6, 0) = -ea;
  k(3, 3) = k(9, 9) = gj;
  k(3, 9) = k(9, 3) = -gj;
  Eigen::Matrix4d m;
  m << 12, 6 * l, -12, 6 * l, 6 * l, 4 * l * l, -6 * l, 2 * l * l, -12, -6 * l, 12, -6 * l, 6 * l, 2 * l * l, -6 * l,
      4 * l * l;
  const double l3 = l * l * l;
  add_plane(k, flat, b.youngs_modulus * b.section.inertia_flat / l3 * m);
  add_plane(k, upright, b.youngs_modulus * b.section.inertia_up / l3 * m);
  return k;
}

BeamMatrix local_geometric(double l, double axial) {
  BeamMatrix k = BeamMatrix::Zero();
  Eigen::Matrix4d m;
  m << 36, 3 * l, -36, 3 * l, 3 * l, 4 * l * l, -3 * l, -l * l, -36, -3 * l, 36, -3 * l, 3 * l, -l * l, -3 * l,
      4 * l * l;
  m *= axial / (30 * l);
  add_plane(k, flat, m);
  add_plane(k, upright, m);
  return k;
}

// Condenses out the released bendings: expand * (unknowns without the released slopes) gives all 12.
BeamMatrix release(const BeamShape& b, const BeamMatrix& elastic) {
  BeamMatrix expand = BeamMatrix::Identity();
  BeamMatrix k = elastic;
  auto drop = [&](int r) {
    if (k(r, r) <= 0) return;
    BeamMatrix step = BeamMatrix::Identity();
    step.row(r) = -k.row(r) / k(r, r);
    step(r, r) = 0;
    k = (step.transpose() * k * step).eval();
    expand = (expand * step).eval();
  };
  if (b.hinge_from) drop(4), drop(5);
  if (b.hinge_to) drop(10), drop(11);
  return expand;
}

// Joint loads equivalent to a load across the beam, straight from q_from to q_to (Przemieniecki, chapter 5).
BeamVector joint_loads(const Eigen::Vector3d& q_from, const Eigen::Vector3d& q_to, double l) {
  BeamVector f = BeamVector::Zero();
  const auto add = [&](const Plane& p, double from, double to) {
    f[p.v1] = l * (7 * from + 3 * to) / 20;
    f[p.t1] = p.sign * l * l * (3 * from + 2 * to) / 60;
    f[p.v2] = l * (3 * from + 7 * to) / 20;
    f[p.t2] = -p.sign * l * l * (2 * from + 3 * to) / 60;
  };
  add(flat, q_from[1], q_to[1]);
  add(upright, q_from[2], q_to[2]);
  return f;
}

// What the load alone turns the released ends by; zero elsewhere.
BeamVector slopes_at_hinges(const BeamShape& b, const BeamMatrix& elastic, const BeamVector& load) {
  BeamVector d = BeamVector::Zero();
  for (const Plane& p : {flat, upright}) {
    const double k1 = elastic(p.t1, p.t1), k2 = elastic(p.t2, p.t2), cross = elastic(p.t1, p.t2);
    if (k1 <= 0) continue;
    if (b.hinge_from && b.hinge_to) {
      const double det = k1 * k2 - cross * cross;
      d[p.t1] = (k2 * load[p.t1] - cross * load[p.t2]) / det;
      d[p.t2] = (k1 * load[p.t2] - cross * load[p.t1]) / det;
    } else if (b.hinge_from) {
      d[p.t1] = load[p.t1] / k1;
    } else if (b.hinge_to) {
      d[p.t2] = load[p.t2] / k2;
    }
  }
  return d;
}

BeamMatrix turn_to_panel(const Eigen::Matrix3d& r, const BeamMatrix& k) {
  BeamMatrix t = BeamMatrix::Zero();
  for (int i = 0; i < 4; ++i) t.block<3, 3>(3 * i, 3 * i) = r;
  return t.transpose() * k * t;
}

}  // namespace

BeamMatrix beam_stiffness(const BeamShape& b) {
  const Axes a = axes_of(b);
  const BeamMatrix k = local_elastic(b, a.length), e = release(b, k);
  return turn_to_panel(a.rotation, e.transpose() * k * e);
}

BeamMatrix beam_geometric_stiffness(const BeamShape& b, double axial) {
  const Axes a = axes_of(b);
  const BeamMatrix e = release(b, local_elastic(b, a.length));
  return turn_to_panel(a.rotation, e.transpose() * local_geometric(a.length, axial) * e);
}

double beam_energy(const BeamShape& b, const BeamVector& u) {
  const Axes a = axes_of(b);
  BeamVector local;
  for (int i = 0; i < 4; ++i) local.segment<3>(3 * i) = a.rotation * u.segment<3>(3 * i);
  const double stretch = local[6] - local[0], twist = local[9] - local[3];
  double twice =
      b.youngs_modulus * b.section.area * stretch * stretch + b.shear_modulus * b.section.torsion * twist * twist;
  const auto add_bending = [&](const Plane& p, double inertia) {
    if (b.hinge_from && b.hinge_to) return;
    const double chord = (local[p.v2] - local[p.v1]) / a.length;
    double from = p.sign * local[p.t1] - chord, to = p.sign * local[p.t2] - chord;
    if (b.hinge_from) from = -0.5 * to;
    if (b.hinge_to) to = -0.5 * from;
    twice += 4 * b.youngs_modulus * inertia * (from * from + from * to + to * to);
  };
  add_bending(flat, b.section.inertia_flat);
  add_bending(upright, b.section.inertia_up);
  return 0.5 * twice / a.length;
}

BeamForces beam_forces(const BeamShape& b, const BeamVector& u, double axial, const BeamLoad& load) {
  const Axes a = axes_of(b);
  BeamVector local;
  for (int i = 0; i < 4; ++i) local.segment<3>(3 * i) = a.rotation * u.segment<3>(3 * i);
  const BeamMatrix k = local_elastic(b, a.length), e = release(b, k);
  const BeamVector spread = joint_loads(a.rotation * load.from, a.rotation * load.to, a.length);
  const BeamVector moved = e * local + slopes_at_hinges(b, k, spread);
  const BeamVector f = e.transpose() * ((k + local_geometric(a.length, axial)) * moved - spread);
  BeamForces out;
  out.axial = f[6];
  out.twist = f[9];
  out.bend_flat[0] = -f[5];
  out.bend_flat[1] = f[11];
  out.bend_up[0] = f[4];
  out.bend_up[1] = -f[10];
  return out;
}

double axial_force(const BeamShape& b, const BeamVector& u) {
  const Eigen::Vector3d axis = b.to - b.from;
  return b.youngs_modulus * b.section.area * axis.dot(u.segment<3>(6) - u.segment<3>(0)) / axis.squaredNorm();
}

BeamForces beam_forces_inside(const BeamShape& b, const BeamForces& at_ends, const BeamLoad& load,
                              const std::array<double, 2>& inset) {
  const Axes a = axes_of(b);
  const Eigen::Vector3d across = a.rotation * (0.5 * (load.from + load.to));
  BeamForces out = at_ends;
  for (int end = 0; end < 2; ++end) {
    const double in = std::min(inset[static_cast<std::size_t>(end)], a.length), x = end == 0 ? in : a.length - in;
    const double share = x / a.length, sag = 0.5 * x * (a.length - x);
    out.bend_flat[end] = (1 - share) * at_ends.bend_flat[0] + share * at_ends.bend_flat[1] - across[1] * sag;
    out.bend_up[end] = (1 - share) * at_ends.bend_up[0] + share * at_ends.bend_up[1] - across[2] * sag;
  }
  return out;
}

double end_stress(const Section& s, const BeamForces& f, int end) {
  const double up = std::abs(f.bend_up[end]) * s.reach_up / s.inertia_up;
  const double flat = std::abs(f.bend_flat[end]) * s.reach_flat / s.inertia_flat;
  const double direct = std::abs(f.axial) / s.area + (s.round ? std::hypot(up, flat) : up + flat);
  const double shear = std::abs(f.twist) * s.reach_twist / s.torsion;
  return std::sqrt(direct * direct + 3 * shear * shear);
}

}  // namespace evenpull::inline solver
