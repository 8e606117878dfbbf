// Flat cloth pulled tight by shrinking it where it lies, held all round: the pull is uniform and nothing has moved.
#pragma once

#include "tests/support/cloth_patch.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::check {

struct TightRectangle {
  double a = 1, b = 1;                // m, along x and y
  double pull_x = 600, pull_y = 600;  // N/m
  double stiffness = 100e3, poisson = 0.3;
  int along_x = 8, along_y = 8;  // quads
  bool quarter = false;          // only x, y >= 0 of the rectangle round the origin, the rest by symmetry
};

inline void tighten(PatchSolver& s, double stiffness, double poisson, double pull_x, double pull_y) {
  // The warp lies along y. Strain C N of isotropic cloth.
  s.shrink((pull_y - poisson * pull_x) / stiffness, (pull_x - poisson * pull_y) / stiffness);
}

// Forces of these checks are small against the pull: 1e-9 N.
inline SolveOptions fine_forces() {
  SolveOptions a = PatchSolver::accurate();
  a.force_tolerance = 1e-9;
  return a;
}

// Node (i, j), i along x, has the number i * (along_y + 1) + j.
inline PatchSolver lay_tight(const TightRectangle& r) {
  Patch p(isotropic(r.stiffness, r.poisson));
  p.add_grid(r.along_x, r.along_y, [&](double u, double v) -> Eigen::Vector3d {
    return r.quarter ? Eigen::Vector3d(0.5 * r.a * u, 0.5 * r.b * v, 0) : Eigen::Vector3d(r.a * u, r.b * v, 0);
  });
  for (int i = 0; i <= r.along_x; ++i)
    for (int j = 0; j <= r.along_y; ++j) {
      const int n = i * (r.along_y + 1) + j;
      const bool edge = i == r.along_x || j == r.along_y || (!r.quarter && (i == 0 || j == 0));
      for (int k = 0; k < 3; ++k)
        if (edge || (r.quarter && ((i == 0 && k == 0) || (j == 0 && k == 1)))) p.hold_node(n, k);
    }
  PatchSolver s(p, fine_forces());
  tighten(s, r.stiffness, r.poisson, r.pull_x, r.pull_y);
  return s;
}

}  // namespace evenpull::check
