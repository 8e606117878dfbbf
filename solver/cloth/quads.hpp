// What is kept of the cloth quad by quad: the four triangles laid over a quad side by side, one a lane of the kernel
// (quad_kernel.hpp). Corners of triangle t are triangle_corners[t] of the quad.
#pragma once

#include <array>
#include <vector>

namespace evenpull::inline solver {

/// One number of each of the four triangles.
using Four = std::array<double, 4>;
/// A vector at a cloth node; the last number is padding.
using Padded = std::array<double, 4>;

/// What does not change. Shape gradients of the second and third corner; that of the first is minus their sum.
struct QuadShape {
  Four weight{};                                   ///< m^2
  std::array<Four, 2> along_warp{}, along_fill{};  ///< 1/m
  std::array<int, 4> nodes{};
};

/// Pairs of corners whose stiffness blocks are kept, rows of the first, columns of the second; the first has the higher
/// node number. Blocks on the diagonal are minus the sum of a node's others, since moving all nodes alike strains
/// nothing.
inline constexpr int quad_pairs[6][2] = {{1, 0}, {2, 0}, {3, 0}, {2, 1}, {1, 3}, {2, 3}};

struct QuadState {
  std::array<Four, 3> pull{}, wrinkle{};  ///< N [N/m] and S, Mandel form
  std::array<Four, 2> shift{};            ///< shrink kept so far minus looseness, warp and fill
  std::array<Four, 2> more_shrink{};      ///< while hot: shrink at the present pull beyond that
  std::array<Four, 2> more_give{};        ///< while hot: its fall with pull [m/N]
};

/// Kept from `evaluate_quads` for `advance_quads`.
struct QuadWork {
  std::array<Four, 6> f{};           ///< images of the warp, then of the fill vector
  std::array<Four, 6> stiffness{};   ///< 00, 10, 11, 20, 21, 22 [N/m]
  std::array<Four, 3> correction{};  ///< N/m
};

struct QuadLaw {
  std::array<double, 6> compliance{};  ///< 00, 10, 11, 20, 21, 22 [m/N]
  double softest = 0;                  ///< its smallest eigenvalue
  double smoothing = 0;                ///< beta [N/m]
};

struct QuadSums {
  double tension_change = 0;  ///< largest |correction| [N/m]
  double gap = 0;             ///< N m
};

/// Where `evaluate_quads` adds its results. All by node, `blocks` by the numbers in `pairs` (one six a quad).
struct QuadTargets {
  Padded* force = nullptr;      ///< with N [N]
  Padded* predicted = nullptr;  ///< with N + correction [N]
  const std::array<int, 6>* pairs = nullptr;
  std::array<double, 9>* blocks = nullptr;  ///< 3x3 row by row [N/m]
};

}  // namespace evenpull::inline solver
