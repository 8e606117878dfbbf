// A solution made up beforehand for curved, orthotropic, pre-shrunk cloth, and the load that makes it true.
//
// Surface X(a, b) over the unit square, displacement u(a, b), x = X + u; `,a` and `,b` are derivatives. Warp w and fill
// f are unit vectors in the tangent plane of X as the solver defines them: the span UnitY projected onto it, turned by
// the warp angle. With the dual basis A^a, A^b of X the images of the yarns are x_w = (A^a.w) x_,a + (A^b.w) x_,b and
// so on; e_ww = (x_w.x_w - 1)/2 + s_w, e_ff likewise, e_wf = x_w.x_f/2, and N = C^-1 e. Virtual work gives the force
// per area
//
//   f = -(1/g) (P^a_,a + P^b_,b),   P^a = g ((A^a.w)(N_ww x_w + N_wf x_f) + (A^a.f)(N_wf x_w + N_ff x_f)),
//   g = |X_,a x X_,b|
//
// Derived here. Derivatives are central differences of sixth order: no formula here is the solver's own.
#pragma once

#include "tests/support/cloth_patch.hpp"

#include <Eigen/Geometry>

#include <array>
#include <cmath>
#include <functional>

namespace evenpull::published {

using Field = std::function<Eigen::Vector3d(const Eigen::Vector2d&)>;

/// df/d(a or b) by differences of sixth order.
template <class F>
Eigen::Vector3d derivative(const F& f, const Eigen::Vector2d& at, int along) {
  // Truncation about (k step)^6/140 for waves of k = 3 to 6: below rounding, 1e-16/step = 1e-13, 1e-10 after two.
  constexpr double step = 1e-3;
  const Eigen::Vector2d d = step * Eigen::Vector2d::Unit(along);
  return (45 * (f(at + d) - f(at - d)) - 9 * (f(at + 2 * d) - f(at - 2 * d)) + (f(at + 3 * d) - f(at - 3 * d))) /
         (60 * step);
}

/// Pull as a function of strain, both as (ww, ff, wf), wf the plain component.
using PullLaw = std::function<Eigen::Vector3d(const Eigen::Vector3d& strain)>;

/// Taut orthotropic cloth: N = C^-1 e, written out.
inline PullLaw taut(const check::PatchCloth& c) {
  const double both = 1 / (1 - c.poisson * c.poisson * c.fill / c.warp), across = c.poisson * c.fill * both;
  return [=](const Eigen::Vector3d& e) {
    return Eigen::Vector3d(c.warp * both * e[0] + across * e[1], c.fill * both * e[1] + across * e[0],
                           2 * c.shear * e[2]);
  };
}

/// Isotropic cloth without Poisson's ratio that cannot push: N = E e, less what is negative of it. (The nearest tensor
/// without negative principal values, which is what the law of docs/model.md, section 2, comes to here.)
inline PullLaw wrinkling(double stiffness) {
  return [=](const Eigen::Vector3d& e) -> Eigen::Vector3d {
    const double mean = 0.5 * (e[0] + e[1]), half = std::hypot(0.5 * (e[0] - e[1]), e[2]);
    if (mean >= half) return stiffness * e;
    if (mean + half <= 0) return Eigen::Vector3d::Zero();
    // Along the major direction alone: (mean + half) n n, with n n = 1/2 + (e - mean)/(2 half).
    const double along = stiffness * (mean + half), c = 0.5 * (e[0] - e[1]) / half, s = e[2] / half;
    return {0.5 * along * (1 + c), 0.5 * along * (1 - c), 0.5 * along * s};
  };
}

class Manufactured {
 public:
  check::PatchCloth cloth;
  Field place, displacement;                                            ///< m
  std::function<std::array<double, 2>(const Eigen::Vector2d&)> shrink;  ///< strain, warp and fill
  PullLaw law;

  /// Pull (ww, ff, wf) [N/m].
  Eigen::Vector3d pull(const Eigen::Vector2d& at) const { return images(at).pull; }
  /// Area of X per area of the unit square [m^2].
  double area(const Eigen::Vector2d& at) const { return images(at).area; }
  /// 1/2 N:C:N over the whole area [N m], by the midpoint rule on n^2 and (2n)^2 squares, extrapolated.
  double energy(int n = 40) const {
    const double coarse = energy_by_midpoints(n), fine = energy_by_midpoints(2 * n);
    return fine + (fine - coarse) / 3;
  }
  /// Load [N] per area of the unit square.
  Eigen::Vector3d load(const Eigen::Vector2d& at) const {
    return -derivative([&](const Eigen::Vector2d& p) { return flow(p, 0); }, at, 0) -
           derivative([&](const Eigen::Vector2d& p) { return flow(p, 1); }, at, 1);
  }

 private:
  struct Images {
    double area;
    std::array<double, 2> warp, fill;  // components A^a.w, A^b.w
    Eigen::Vector3d x_warp, x_fill, pull;
  };

  Images images(const Eigen::Vector2d& at) const {
    const Eigen::Vector3d a = derivative(place, at, 0), b = derivative(place, at, 1), normal = a.cross(b);
    const Eigen::Vector3d n = normal.normalized();
    const Eigen::Vector3d span = (Eigen::Vector3d::UnitY() - n.y() * n).normalized();
    Eigen::Vector3d chord = span.cross(n);
    if (chord.x() < 0) chord = -chord;
    const double angle = cloth.warp_angle;
    const Eigen::Vector3d w = std::cos(angle) * span + std::sin(angle) * chord;
    const Eigen::Vector3d f = std::cos(angle) * chord - std::sin(angle) * span;
    Images i;
    i.area = normal.norm();
    const Eigen::Vector3d dual_a = b.cross(n) / i.area, dual_b = n.cross(a) / i.area;
    i.warp = {dual_a.dot(w), dual_b.dot(w)};
    i.fill = {dual_a.dot(f), dual_b.dot(f)};
    const Eigen::Vector3d xa = a + derivative(displacement, at, 0), xb = b + derivative(displacement, at, 1);
    i.x_warp = i.warp[0] * xa + i.warp[1] * xb;
    i.x_fill = i.fill[0] * xa + i.fill[1] * xb;
    const std::array<double, 2> s = shrink(at);
    i.pull = law({0.5 * (i.x_warp.squaredNorm() - 1) + s[0], 0.5 * (i.x_fill.squaredNorm() - 1) + s[1],
                  0.5 * i.x_warp.dot(i.x_fill)});
    return i;
  }

  double energy_by_midpoints(int n) const {
    double sum = 0;
    for (int i = 0; i < n; ++i)
      for (int j = 0; j < n; ++j) {
        const Images p = images({(i + 0.5) / n, (j + 0.5) / n});
        const double w = p.pull[0], f = p.pull[1], s = p.pull[2];
        sum += 0.5 * p.area / (n * n) *
               (w * w / cloth.warp + f * f / cloth.fill - 2 * cloth.poisson * w * f / cloth.warp + s * s / cloth.shear);
      }
    return sum;
  }

  Eigen::Vector3d flow(const Eigen::Vector2d& at, int along) const {
    const Images i = images(at);
    return i.area * (i.warp[along] * (i.pull[0] * i.x_warp + i.pull[2] * i.x_fill) +
                     i.fill[along] * (i.pull[2] * i.x_warp + i.pull[1] * i.x_fill));
  }
};

}  // namespace evenpull::published
