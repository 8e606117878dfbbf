#include "solver/frame/beam.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <array>
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

// One bending of a beam. Its slopes at the ends count from the chord: s = slope - (v2 - v1)/l. The beam's own moments are
//   m = EI/l B s,   B = [4 + phi, 2 - phi; 2 - phi, 4 + phi] / (1 + phi),   phi = 12 EI/(kappa G A l^2)
// (Timoshenko). An end on a spring k against its joint follows the joint by the share r = k/(k + EI/l B_11): all of it
// where k is infinite, nothing at a hinge. With r all is finite, and a rigid end exactly what it is without a spring.
class Bending {
 public:
  Bending(const BeamShape& b, double length, bool up) : plane_(up ? upright : flat), l_(length) {
    const double inertia = up ? b.section.inertia_up : b.section.inertia_flat;
    const double shear = b.shear_modulus * (up ? b.section.shear_up : b.section.shear_flat);
    ei_ = b.youngs_modulus * inertia;
    phi_ = shear > 0 ? 12 * ei_ / (shear * l_ * l_) : 0;
    own_ = (4 + phi_) / (1 + phi_), cross_ = (2 - phi_) / (1 + phi_);
    const double spring[2] = {up ? b.turn_from.up : b.turn_from.flat, up ? b.turn_to.up : b.turn_to.flat};
    for (int i : {0, 1}) follows_[i] = share(spring[i]);
    left_ = 1 - loose(0) * loose(1) * carried() * carried();
  }

  const Plane& plane() const { return plane_; }
  double phi() const { return phi_; }

  // Stiffness of (v1, slope1, v2, slope2), slopes those of the joints: beam and springs in series.
  Eigen::Matrix4d stiffness() const { return by_slopes(of_joints()); }
  // The same of the beam alone: slopes those of its ends.
  Eigen::Matrix4d alone() const {
    Eigen::Matrix2d s;
    s << own_, cross_, cross_, own_;
    return by_slopes(s);
  }

  // From slopes of the joints to those of the beam's ends, deflections as they are.
  Eigen::Matrix4d to_ends() const {
    Eigen::Matrix2d t;
    const double c = carried();
    t << follows_[0] / left_, -loose(0) * c * follows_[1] / left_, -loose(1) * c * follows_[0] / left_,
        follows_[1] / left_;
    Eigen::Matrix4d e = Eigen::Matrix4d::Identity();
    for (int i : {0, 1}) {
      const double chord = (1 - t(i, 0) - t(i, 1)) / l_;
      e.row(2 * i + 1) << -chord, t(i, 0), chord, t(i, 1);
    }
    return e;
  }

  // By what moments put on the beam's ends turn them while the joints stand still.
  Eigen::Vector2d turned_by(const Eigen::Vector2d& moments) const {
    if (ei_ <= 0) return Eigen::Vector2d::Zero();
    const double unit = l_ / (ei_ * own_), c = carried();
    const double a = loose(0) * unit * moments[0], b = loose(1) * unit * moments[1];
    return {(a - loose(0) * c * b) / left_, (b - loose(1) * c * a) / left_};
  }

  // Under an axial force [N], slopes those of the beam's ends: integrals of the squared slope over the shapes with shear.
  Eigen::Matrix4d geometric(double axial) const {
    const double l = l_, p = phi_, pp = p * p;
    const double v = 36 + 60 * p + 30 * pp, t = 4 + 5 * p + 2.5 * pp, x = 1 + 5 * p + 2.5 * pp;
    Eigen::Matrix4d m;
    m << v, 3 * l, -v, 3 * l, 3 * l, t * l * l, -3 * l, -x * l * l, -v, -3 * l, v, -3 * l, 3 * l, -x * l * l, -3 * l,
        t * l * l;
    return axial / (30 * l) / ((1 + p) * (1 + p)) * m;
  }

  // Twice the energy at end displacements in beam axes: from the turns against the chord, so that of a motion without
  // strain only rounding squared is left.
  double twice_energy(const BeamVector& local) const {
    const double chord = (local[plane_.v2] - local[plane_.v1]) / l_;
    const Eigen::Vector2d s(plane_.sign * local[plane_.t1] - chord, plane_.sign * local[plane_.t2] - chord);
    const Eigen::Matrix2d k = of_joints();
    return ei_ / l_ * (k(0, 0) * s[0] * s[0] + 2 * k(0, 1) * s[0] * s[1] + k(1, 1) * s[1] * s[1]);
  }

 private:
  double share(double spring) const {
    if (std::isinf(spring)) return 1;
    return spring > 0 ? spring / (spring + ei_ / l_ * own_) : 0;
  }
  double loose(int end) const { return 1 - follows_[end]; }
  double carried() const { return cross_ / own_; }

  // Moment coefficients of the joints' slopes, in EI/l.
  Eigen::Matrix2d of_joints() const {
    const double c = carried();
    Eigen::Matrix2d s;
    s(0, 0) = own_ * follows_[0] * (1 - loose(1) * c * c) / left_;
    s(1, 1) = own_ * follows_[1] * (1 - loose(0) * c * c) / left_;
    s(0, 1) = s(1, 0) = cross_ * follows_[0] * follows_[1] / left_;
    return s;
  }

  Eigen::Matrix4d by_slopes(const Eigen::Matrix2d& s) const {
    const double a = s(0, 0), b = s(0, 1), d = s(1, 1), l = l_;
    const double first = (a + b) * l, second = (b + d) * l, across = a + 2 * b + d;
    Eigen::Matrix4d m;
    m << across, first, -across, second, first, a * l * l, -first, b * l * l, -across, -first, across, -second, second,
        b * l * l, -second, d * l * l;
    const double l3 = l * l * l;
    return ei_ / l3 * m;
  }

  Plane plane_;
  double l_, ei_ = 0, phi_ = 0, own_ = 4, cross_ = 2;
  double follows_[2] = {1, 1}, left_ = 1;
};

std::array<Bending, 2> bendings(const BeamShape& b, double l) { return {Bending(b, l, false), Bending(b, l, true)}; }

double twist_stiffness(const BeamShape& b, double l) { return b.shear_modulus * b.section.torsion / l * b.twist_gain; }

enum class Slopes { of_joints, of_ends };

BeamMatrix local_elastic(const BeamShape& b, double l, Slopes slopes) {
  BeamMatrix k = BeamMatrix::Zero();
  const double ea = b.youngs_modulus * b.section.area / l, gj = twist_stiffness(b, l);
  k(0, 0) = k(6, 6) = ea;
  k(0, 6) = k(6, 0) = -ea;
  k(3, 3) = k(9, 9) = gj;
  k(3, 9) = k(9, 3) = -gj;
  for (const Bending& d : bendings(b, l))
    add_plane(k, d.plane(), slopes == Slopes::of_joints ? d.stiffness() : d.alone());
  return k;
}

// Slopes of the beam's ends.
BeamMatrix local_geometric(const BeamShape& b, double l, double axial) {
  BeamMatrix k = BeamMatrix::Zero();
  for (const Bending& d : bendings(b, l)) add_plane(k, d.plane(), d.geometric(axial));
  return k;
}

// From the unknowns of the joints to those of the beam's ends, which turn against them.
BeamMatrix to_ends(const BeamShape& b, double l) {
  BeamMatrix e = BeamMatrix::Identity();
  for (const Bending& d : bendings(b, l)) {
    for (int i : {d.plane().t1, d.plane().t2}) e(i, i) = 0;
    Eigen::Matrix4d turns = d.to_ends();
    turns.row(0).setZero(), turns.row(2).setZero();
    add_plane(e, d.plane(), turns);
  }
  return e;
}

// Joint loads equivalent to a load across the beam, straight from q_from to q_to (Przemieniecki, chapter 5). Shear takes
// phi/(1 + phi) of the moments of its odd part; derived here: such a load turns the ends of a simply supported beam as it
// would without shear, and with it the beam is softer against turning both ends alike.
BeamVector joint_loads(const BeamShape& b, const Eigen::Vector3d& q_from, const Eigen::Vector3d& q_to, double l) {
  BeamVector f = BeamVector::Zero();
  for (const Bending& d : bendings(b, l)) {
    const Plane& p = d.plane();
    const double from = q_from[p.v1], to = q_to[p.v1];
    const double less = 0.5 * (from - to) * d.phi() / (1 + d.phi());
    f[p.v1] = l * (7 * from + 3 * to) / 20 - less * l / 30;
    f[p.t1] = p.sign * l * l * (3 * from + 2 * to) / 60 - p.sign * less * l * l / 60;
    f[p.v2] = l * (3 * from + 7 * to) / 20 + less * l / 30;
    f[p.t2] = -p.sign * l * l * (2 * from + 3 * to) / 60 - p.sign * less * l * l / 60;
  }
  return f;
}

// What the load alone turns the ends by that turn against their joints; zero elsewhere.
BeamVector turned_by(const BeamShape& b, double l, const BeamVector& load) {
  BeamVector out = BeamVector::Zero();
  for (const Bending& d : bendings(b, l)) {
    const Plane& p = d.plane();
    const Eigen::Vector2d turned = d.turned_by({p.sign * load[p.t1], p.sign * load[p.t2]});
    out[p.t1] = p.sign * turned[0], out[p.t2] = p.sign * turned[1];
  }
  return out;
}

BeamMatrix turn_to_panel(const Eigen::Matrix3d& r, const BeamMatrix& k) {
  BeamMatrix t = BeamMatrix::Zero();
  for (int i = 0; i < 4; ++i) t.block<3, 3>(3 * i, 3 * i) = r;
  return t.transpose() * k * t;
}

}  // namespace

BeamMatrix beam_stiffness(const BeamShape& b) {
  const Axes a = axes_of(b);
  return turn_to_panel(a.rotation, local_elastic(b, a.length, Slopes::of_joints));
}

BeamMatrix beam_geometric_stiffness(const BeamShape& b, double axial) {
  const Axes a = axes_of(b);
  const BeamMatrix e = to_ends(b, a.length);
  return turn_to_panel(a.rotation, e.transpose() * local_geometric(b, a.length, axial) * e);
}

double beam_energy(const BeamShape& b, const BeamVector& u) {
  const Axes a = axes_of(b);
  BeamVector local;
  for (int i = 0; i < 4; ++i) local.segment<3>(3 * i) = a.rotation * u.segment<3>(3 * i);
  const double stretch = local[6] - local[0], twist = local[9] - local[3];
  double twice =
      b.youngs_modulus * b.section.area / a.length * stretch * stretch + twist_stiffness(b, a.length) * twist * twist;
  for (const Bending& d : bendings(b, a.length)) twice += d.twice_energy(local);
  return 0.5 * twice;
}

BeamForces beam_forces(const BeamShape& b, const BeamVector& u, double axial, const BeamLoad& load) {
  const Axes a = axes_of(b);
  BeamVector local;
  for (int i = 0; i < 4; ++i) local.segment<3>(3 * i) = a.rotation * u.segment<3>(3 * i);
  const BeamMatrix e = to_ends(b, a.length);
  const BeamVector spread = joint_loads(b, a.rotation * load.from, a.rotation * load.to, a.length);
  const BeamVector moved = e * local + turned_by(b, a.length, spread);
  // A spring takes what the beam's end takes. The axial force acts on the shape that the beam has without it.
  const BeamMatrix geometric = e.transpose() * local_geometric(b, a.length, axial);
  const BeamVector f = (local_elastic(b, a.length, Slopes::of_ends) + geometric) * moved - spread;
  BeamForces out;
  out.axial = f[6];
  out.twist = f[9];
  out.bend_flat[0] = -f[5];
  out.bend_flat[1] = f[11];
  out.bend_up[0] = f[4];
  out.bend_up[1] = -f[10];
  return out;
}

double gain_of_held_warping(const Section& s, double youngs_modulus, double shear_modulus, double length,
                            int ends_held) {
  // Of what perfectly held ends gain; judgement: the rivets and the spar behind them give.
  constexpr double real_ends = 0.5;
  // Below it 1 - tanh u/u is rounding: ends held as perfectly as that do not turn at all.
  constexpr double least_u = 1e-3;
  if (s.warping <= 0 || s.torsion <= 0 || ends_held == 0) return 1;
  const double over_length = std::sqrt(shear_modulus * s.torsion / (youngs_modulus * s.warping));
  const double u = std::max(least_u, length * over_length / ends_held);
  return 1 + real_ends * (1 / (1 - std::tanh(u) / u) - 1);
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
