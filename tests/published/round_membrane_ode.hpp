// The round membrane under pressure as an ordinary differential equation, with the solver's own strain (Green-Lagrange)
// and law, all in shares of radius and stiffness. What is left between this and a mesh is the mesh; what is left
// between this and Hencky's equations is the finite slope. Derived here.
//
// A point at r goes to (r + u, w). With P the pull per undeformed length, P = N (1 + u', w'), e_r = (l^2 - 1)/2,
// l^2 = (1 + u')^2 + w'^2, e_t = ((1 + u/r)^2 - 1)/2, N_r = (e_r + nu e_t)/(1 - nu^2) and the like:
//   (r P_r)' = N_t (1 + u/r) - r f_r,     r P_z = - (all load inside r)/(2 pi)
// Load on the undeformed plane: f_r = 0, r P_z = -q r^2/2. Load normal to the deformed cloth: r f_r = -q (r + u) w',
// r P_z = -q (r + u)^2/2. Shooting for the stretch of the centre until u(1) = 0.
#pragma once

#include <cmath>

namespace evenpull::published {

enum class Pressure { on_undeformed_plane, on_deformed_cloth };

/// Rise over a q^(1/3), pulls over Et q^(2/3), with q = p a/Et.
struct RoundMembrane {
  double rise = 0, centre_pull = 0, rim_pull = 0;
};

class RoundMembraneEquation {
 public:
  RoundMembraneEquation(double poisson, double q, Pressure how)
      : nu_(poisson), q_(q), follows_(how == Pressure::on_deformed_cloth) {}

  RoundMembrane solve() const {
    // Stretch of the centre: n (1 - nu) q^(2/3), and n lies well within 0.2 and 0.9.
    const double unit = std::pow(q_, 2.0 / 3.0);
    double low = 0.2 * (1 - nu_) * unit, high = 0.9 * (1 - nu_) * unit;
    constexpr int halvings = 50;
    for (int i = 0; i < halvings; ++i) {
      const double middle = 0.5 * (low + high);
      (march(middle).u > 0 ? high : low) = middle;
    }
    const State rim = march(low);
    return {-rim.w / std::cbrt(q_), pull_at_centre(low) / unit, slopes(1, rim).radial / unit};
  }

 private:
  struct State {
    double u = 0, p = 0, w = 0;  // displacements, radial component of P
  };
  struct Slopes {
    double u = 0, p = 0, w = 0;
    double radial = 0;  // N_r
  };

  double pull_at_centre(double stretch) const { return (stretch + 0.5 * stretch * stretch) / (1 - nu_); }

  Slopes slopes(double r, const State& s) const {
    const double around = 1 + s.u / r, et = 0.5 * (around * around - 1), c = 1 / (1 - nu_ * nu_);
    const double out = r + s.u;
    const double pz = follows_ ? -0.5 * q_ * out * out / r : -0.5 * q_ * r;
    const double total = std::hypot(s.p, pz);
    double l = 1;  // N(l) l = |P|, Newton
    for (int i = 0; i < 30; ++i) {
      const double n = c * (0.5 * (l * l - 1) + nu_ * et);
      const double step = (n * l - total) / (n + c * l * l);
      l -= step;
      if (std::abs(step) < 1e-15) break;
    }
    Slopes d;
    d.radial = total / l;
    d.u = s.p / d.radial - 1;
    d.w = pz / d.radial;
    const double er = 0.5 * (l * l - 1), nt = c * (et + nu_ * er);
    d.p = (nt * around - s.p - (follows_ ? -q_ * out * d.w : 0)) / r;
    return d;
  }

  // Runge-Kutta of fourth order from a little beside the centre, where r appears in a denominator.
  State march(double stretch) const {
    constexpr int steps = 1000;
    constexpr double start = 1e-3;
    State s{stretch * start, pull_at_centre(stretch) * (1 + stretch), 0};
    s.w = -0.25 * q_ * start * start / s.p;
    const double h = (1 - start) / steps;
    const auto at = [](const State& a, const Slopes& k, double by) {
      return State{a.u + by * k.u, a.p + by * k.p, a.w + by * k.w};
    };
    for (int i = 0; i < steps; ++i) {
      const double r = start + i * h;
      const Slopes k1 = slopes(r, s), k2 = slopes(r + h / 2, at(s, k1, h / 2)),
                   k3 = slopes(r + h / 2, at(s, k2, h / 2)), k4 = slopes(r + h, at(s, k3, h));
      s.u += h / 6 * (k1.u + 2 * k2.u + 2 * k3.u + k4.u);
      s.p += h / 6 * (k1.p + 2 * k2.p + 2 * k3.p + k4.p);
      s.w += h / 6 * (k1.w + 2 * k2.w + 2 * k3.w + k4.w);
    }
    return s;
  }

  double nu_, q_;
  bool follows_;
};

}  // namespace evenpull::published
