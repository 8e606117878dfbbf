// Vectors and symmetric tensors of four triangles at once. Include in .cpp files only (solver/numerics/lanes.hpp).
#pragma once

#include "solver/cloth/fabric_law.hpp"
#include "solver/cloth/quads.hpp"
#include "solver/numerics/lanes.hpp"

#include <array>
#include <cmath>

namespace evenpull::in_lanes {

inline constexpr double root2 = 1.41421356237309504880;

// Three components of a vector, or three Mandel numbers.
struct Three {
  Lanes at[3];
};

EVENPULL_INLINE Lanes dot(const Three& a, const Three& b) {
  return a.at[0] * b.at[0] + a.at[1] * b.at[1] + a.at[2] * b.at[2];
}

// Symmetric 3x3: 00, 10, 11, 20, 21, 22.
struct Symmetric {
  Lanes at[6];
};

EVENPULL_INLINE Three times(const Symmetric& m, const Three& v) {
  return {{m.at[0] * v.at[0] + m.at[1] * v.at[1] + m.at[3] * v.at[2],
           m.at[1] * v.at[0] + m.at[2] * v.at[1] + m.at[4] * v.at[2],
           m.at[3] * v.at[0] + m.at[4] * v.at[1] + m.at[5] * v.at[2]}};
}

EVENPULL_INLINE Symmetric inverse(const Symmetric& m) {
  const Lanes *a = m.at, c00 = a[2] * a[5] - a[4] * a[4], c10 = a[3] * a[4] - a[1] * a[5],
              c20 = a[1] * a[4] - a[3] * a[2];
  const Lanes one_by = 1.0 / (a[0] * c00 + a[1] * c10 + a[3] * c20);
  return {{c00 * one_by, c10 * one_by, (a[0] * a[5] - a[3] * a[3]) * one_by, c20 * one_by,
           (a[1] * a[3] - a[0] * a[4]) * one_by, (a[0] * a[2] - a[1] * a[1]) * one_by}};
}

EVENPULL_INLINE Lanes determinant(const Three& t) { return t.at[0] * t.at[1] - 0.5 * t.at[2] * t.at[2]; }

EVENPULL_INLINE Three tensor_inverse(const Three& t) {
  const Lanes one_by = 1.0 / determinant(t);
  return {{t.at[1] * one_by, t.at[0] * one_by, -t.at[2] * one_by}};
}

// X -> (P X S + S X P)/2 on Mandel vectors.
EVENPULL_INLINE Symmetric symmetric_product(const Three& p, const Three& s) {
  const Lanes p3 = p.at[2] * (1 / root2), s3 = s.at[2] * (1 / root2);
  return {{p.at[0] * s.at[0], p3 * s3, p.at[1] * s.at[1], (p.at[0] * s3 + p3 * s.at[0]) * (1 / root2),
           (p.at[1] * s3 + p3 * s.at[1]) * (1 / root2), 0.5 * (p.at[0] * s.at[1] + p.at[1] * s.at[0]) + p3 * s3}};
}

EVENPULL_INLINE Three load(const std::array<Four, 3>& v) { return {{lanes(v[0]), lanes(v[1]), lanes(v[2])}}; }
EVENPULL_INLINE void store(std::array<Four, 3>& to, const Three& v) {
  for (int k = 0; k < 3; ++k) lanes(to[k]) = v.at[k];
}

// Largest step <= 1 for which t + step * dt stays inside the cone.
EVENPULL_INLINE Lanes longest_step(const Three& t, const Three& dt) {
  const Lanes a = determinant(t), c = determinant(dt);
  const Lanes b = t.at[0] * dt.at[1] + t.at[1] * dt.at[0] - t.at[2] * dt.at[2];
  Lanes root = b * b - 4.0 * a * c;
  for (int k = 0; k < lane_count; ++k) root[k] = std::sqrt(root[k] > 0 ? root[k] : 0.0);
  const Lanes smallest = (b - root) / (2.0 * a);
  const auto whole = smallest >= -to_boundary;
  return whole ? Lanes{1, 1, 1, 1} : -to_boundary / (whole ? Lanes{-1, -1, -1, -1} : smallest);
}

}  // namespace evenpull::in_lanes
