// The law of woven cloth: no compression, orthotropic compliance, heat shrink along a load line (docs/model.md,
// sections 2 and 3). One convex energy gives taut, wrinkled and slack cloth:
//
//   W(e) = max over N > 0 of  N:e - 1/2 N:C:N - sum_d 1/2 b <(a - s)/b - N_d>+^2 - sum_d 1/2 g b <N_d - Nc>+^2
//                            + beta log det N
//
// Symmetric 2x2 tensors are 3-vectors in Mandel form, (t_ww, t_ff, sqrt(2) t_wf), so that t:u is a plain dot product.
// Tension relaxations: Reissner (1938), Pipkin (1986), from memory. Interior-point linearisation: the dual form of the
// HKM direction of semidefinite programming (Helmberg-Rendl-Vanderbei-Wolkowicz, Kojima-Shindoh-Hara, Monteiro).
#pragma once

#include <Eigen/Core>

namespace evenpull::inline solver {

/// Mandel vector of a symmetric tensor in warp/fill axes: tension resultant N [N/m], pull positive, or strain [1].
using Mandel = Eigen::Vector3d;

/// Compliance C [m/N] of cold cloth in Mandel form.
/// C_ww = 1/E_w, C_ff = 1/E_f, C_wf = -nu/E_w, shear 1/(2 G).
Eigen::Matrix3d compliance(double stiffness_warp, double stiffness_fill, double poisson, double shear);

/// Smallest eigenvalue of C [m/N]: turns an energy gap into a bound on the tension error.
double smallest_eigenvalue(const Eigen::Matrix3d& compliance);

/// Load line of one yarn direction while hot: s_end = max(s_old, a - b N) - g b <N - Nc>+.
struct LoadLine {
  double a = 0;           ///< shrink at no pull [strain]
  double b = 0;           ///< shrink lost per pull [m/N]; 0 = cold
  double creep = 0;       ///< g, 0..1
  double creep_pull = 0;  ///< Nc [N/m]
};

/// Cloth at one place: what its law needs besides the strain.
struct ClothPoint {
  const Eigen::Matrix3d* cold = nullptr;  ///< C
  double shrink[2] = {0, 0};              ///< s_old in warp and fill
  bool hot = false;
  LoadLine line[2];
};

/// Shrink at the end of a step with pulls N: s_old when cold.
double shrink_after(const ClothPoint& p, int direction, double pull);

/// How fast that falls with the pull [m/N]; 0 when cold.
double give_while_hot(const ClothPoint& p, int direction, double pull);

/// Tension N and wrinkle strain S of one triangle; both positive definite, N S = beta I at the answer.
struct Tension {
  Mandel pull{1, 1, 0};
  Mandel wrinkle{1, 1, 0};
};

/// Linearisation about (N, S) for a strain e: dN = stiffness * (de) + correction.
struct Linearised {
  Eigen::Matrix3d stiffness;  ///< M^-1 [N/m]
  Mandel correction;          ///< dN at unchanged strain [N/m]
  Mandel mismatch;            ///< C N - e - ds - S [1]
};
Linearised linearise(const ClothPoint& p, const Mandel& cold_strain, const Tension& t, double beta);

/// Share of the way to the boundary of the positive definite cone that a step may go: the usual choice of
/// interior-point codes.
inline constexpr double to_boundary = 0.95;

/// Moves t by dN (given the new strain) and the matching dS, each shortened so that it stays positive definite.
void advance(Tension& t, const Mandel& pull_step, double beta);

/// The law by itself: the tension at a given cold strain e = E - looseness + s_old. Returns iterations, or -1.
int solve_law(const ClothPoint& p, const Mandel& cold_strain, double beta, Tension& t);

/// 1/2 N:C:N + load-line terms: the dual energy per area [N/m], without the log term.
double dual_energy(const ClothPoint& p, const Mandel& pull);

/// Energy per area W(e) at the tension that `solve_law` found [N/m], without the log term.
double energy(const ClothPoint& p, const Mandel& cold_strain, const Mandel& pull);

/// Principal values and direction of a Mandel tensor: major, minor, angle of the major from the warp [rad].
struct Principal {
  double major = 0, minor = 0, angle = 0;
};
Principal principal(const Mandel& t);

}  // namespace evenpull::inline solver
