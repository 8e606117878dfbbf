#include "solver/cloth/fabric_law.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

constexpr double root2 = 1.41421356237309504880;

double det(const Mandel& t) { return t[0] * t[1] - 0.5 * t[2] * t[2]; }

Mandel inverse(const Mandel& t) { return Mandel(t[1], t[0], -t[2]) / det(t); }

// X -> (P X S + S X P)/2 as a 3x3 matrix acting on Mandel vectors; symmetric, positive definite with P and S.
Eigen::Matrix3d symmetric_product(const Mandel& p, const Mandel& s) {
  const double p3 = p[2] / root2, s3 = s[2] / root2;
  const double warp_shear = (p[0] * s3 + p3 * s[0]) / root2;
  const double fill_shear = (p[1] * s3 + p3 * s[1]) / root2;
  Eigen::Matrix3d m;
  m << p[0] * s[0], p3 * s3, warp_shear,  //
      p3 * s3, p[1] * s[1], fill_shear,   //
      warp_shear, fill_shear, 0.5 * (p[0] * s[1] + p[1] * s[0]) + p3 * s3;
  return m;
}

// Largest step alpha <= 1 for which t + alpha dt stays inside the cone.
double longest_step(const Mandel& t, const Mandel& dt) {
  const double a = det(t);
  const double b = t[0] * dt[1] + t[1] * dt[0] - t[2] * dt[2];
  const double c = det(dt);
  const double smallest = (b - std::sqrt(std::max(0.0, b * b - 4 * a * c))) / (2 * a);
  if (smallest >= -to_boundary) return 1;
  return -to_boundary / smallest;
}

}  // namespace

Eigen::Matrix3d compliance(double stiffness_warp, double stiffness_fill, double poisson, double shear) {
  Eigen::Matrix3d c = Eigen::Matrix3d::Zero();
  c(0, 0) = 1 / stiffness_warp;
  c(1, 1) = 1 / stiffness_fill;
  c(0, 1) = c(1, 0) = -poisson / stiffness_warp;
  c(2, 2) = 1 / (2 * shear);
  return c;
}

double smallest_eigenvalue(const Eigen::Matrix3d& c) {
  return Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(c, Eigen::EigenvaluesOnly).eigenvalues()[0];
}

double shrink_after(const ClothPoint& p, int d, double pull) {
  if (!p.hot) return p.shrink[d];
  const LoadLine& l = p.line[d];
  return std::max(p.shrink[d], l.a - l.b * pull) - l.creep * l.b * std::max(0.0, pull - l.creep_pull);
}

double give_while_hot(const ClothPoint& p, int d, double pull) {
  if (!p.hot) return 0;
  const LoadLine& l = p.line[d];
  return (l.a - l.b * pull > p.shrink[d] ? l.b : 0) + (pull > l.creep_pull ? l.creep * l.b : 0);
}

Linearised linearise(const ClothPoint& p, const Mandel& cold_strain, const Tension& t, double beta) {
  Linearised out;
  Eigen::Matrix3d m = *p.cold;
  out.mismatch = m * t.pull - cold_strain - t.wrinkle;
  if (p.hot) {
    for (int d = 0; d < 2; ++d) {
      out.mismatch[d] -= shrink_after(p, d, t.pull[d]) - p.shrink[d];
      m(d, d) += give_while_hot(p, d, t.pull[d]);
    }
  }
  const Mandel inv = inverse(t.pull);
  m += symmetric_product(inv, t.wrinkle);
  out.stiffness = m.inverse();
  out.correction = out.stiffness * (beta * inv - t.wrinkle - out.mismatch);
  return out;
}

void advance(Tension& t, const Mandel& pull_step, double beta) {
  const Mandel inv = inverse(t.pull);
  const Mandel wrinkle_step = beta * inv - t.wrinkle - symmetric_product(inv, t.wrinkle) * pull_step;
  t.pull += longest_step(t.pull, pull_step) * pull_step;
  t.wrinkle += longest_step(t.wrinkle, wrinkle_step) * wrinkle_step;
}

int solve_law(const ClothPoint& p, const Mandel& e, double beta, Tension& t) {
  constexpr int most = 200;
  constexpr double shrink_target = 0.1;  // the usual centring of a path-following method
  const double strain_scale = std::max(1e-4, e.norm());
  const double pull_scale = strain_scale / p.cold->trace() * 3;
  t.pull = Mandel(pull_scale, pull_scale, 0);
  t.wrinkle = Mandel(strain_scale, strain_scale, 0);
  for (int i = 1; i <= most; ++i) {
    const double gap = 0.5 * t.pull.dot(t.wrinkle);
    const double target = std::max(beta, shrink_target * gap);
    const Linearised lin = linearise(p, e, t, target);
    const Mandel step = lin.correction;
    const bool matched = lin.mismatch.norm() < 1e-12 * strain_scale;
    const Eigen::Vector2d centred(det(t.pull) * det(t.wrinkle) / (beta * beta) - 1, gap / beta - 1);
    if (matched && centred.cwiseAbs().maxCoeff() < 1e-6) return i;
    advance(t, step, target);
  }
  return -1;
}

double dual_energy(const ClothPoint& p, const Mandel& n) {
  double w = 0.5 * n.dot(*p.cold * n);
  if (!p.hot) return w;
  for (int d = 0; d < 2; ++d) {
    const LoadLine& l = p.line[d];
    if (l.b <= 0) continue;
    const double moving = std::max(0.0, l.a - l.b * n[d] - p.shrink[d]);
    const double over = std::max(0.0, n[d] - l.creep_pull);
    w += 0.5 * moving * moving / l.b + 0.5 * l.creep * l.b * over * over;
  }
  return w;
}

double energy(const ClothPoint& p, const Mandel& e, const Mandel& n) { return n.dot(e) - dual_energy(p, n); }

Principal principal(const Mandel& t) {
  const double mean = 0.5 * (t[0] + t[1]), half = 0.5 * (t[0] - t[1]), shear = t[2] / root2;
  const double radius = std::hypot(half, shear);
  return {mean + radius, mean - radius, radius > 0 ? 0.5 * std::atan2(shear, half) : 0};
}

}  // namespace evenpull::inline solver
