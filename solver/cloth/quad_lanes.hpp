// Four triangles over a quad: from its corners to their strains, and from their pulls and stiffness back to its nodes. Include
// in .cpp files only (solver/numerics/lanes.hpp).
#pragma once

#include "solver/cloth/lane_tensors.hpp"
#include "solver/cloth/quad_kernel.hpp"

#include <array>

namespace evenpull::in_lanes {

// First, second and third corner of each triangle of a nodal vector, as differences from the first.
EVENPULL_INLINE void corner_differences(const std::array<int, 4>& nodes, const Padded* v, Three& second, Three& third) {
  const Padded &a = v[nodes[0]], &b = v[nodes[1]], &c = v[nodes[2]], &d = v[nodes[3]];
  for (int k = 0; k < 3; ++k) {
    const Lanes first = {a[k], a[k], b[k], a[k]};
    second.at[k] = Lanes{b[k], c[k], c[k], b[k]} - first;
    third.at[k] = Lanes{c[k], d[k], d[k], d[k]} - first;
  }
}

EVENPULL_INLINE void images(const QuadShape& s, const Three& second, const Three& third, Three& warp, Three& fill) {
  for (int k = 0; k < 3; ++k) {
    warp.at[k] = lanes(s.along_warp[0]) * second.at[k] + lanes(s.along_warp[1]) * third.at[k];
    fill.at[k] = lanes(s.along_fill[0]) * second.at[k] + lanes(s.along_fill[1]) * third.at[k];
  }
}

// Forces on the second and third corner: weight * g_i . N F^T.
EVENPULL_INLINE void corner_forces(const QuadShape& s, const Three& warp, const Three& fill, const Three& n,
                                   double second[3][4], double third[3][4]) {
  const Lanes shear = n.at[2] * (1 / root2);
  for (int k = 0; k < 3; ++k) {
    const Lanes p = lanes(s.weight) * (n.at[0] * warp.at[k] + shear * fill.at[k]);
    const Lanes q = lanes(s.weight) * (shear * warp.at[k] + n.at[1] * fill.at[k]);
    lanes(second[k]) = lanes(s.along_warp[0]) * p + lanes(s.along_fill[0]) * q;
    lanes(third[k]) = lanes(s.along_warp[1]) * p + lanes(s.along_fill[1]) * q;
  }
}

// From the corners of triangles to the nodes of the quad; the first corners get minus what the other two get.
EVENPULL_INLINE void add_to_nodes(const std::array<int, 4>& nodes, const double second[3][4], const double third[3][4],
                                  Padded* out) {
  for (int k = 0; k < 3; ++k) {
    const double *b = second[k], *c = third[k];
    const double sum[4] = {b[0] + c[0], b[1] + c[1], b[2] + c[2], b[3] + c[3]};
    out[nodes[0]][k] -= sum[0] + sum[1] + sum[3];
    out[nodes[1]][k] += b[0] + b[3] - sum[2];
    out[nodes[2]][k] += c[0] + b[1] + b[2];
    out[nodes[3]][k] += c[1] + c[2] + c[3];
  }
}

// Blocks of the three pairs of corners of each triangle: (second, first), (third, first), (third, second).
struct Blocks {
  alignas(32) double second_first[9][4], third_first[9][4], third_second[9][4];
};

EVENPULL_INLINE void stiffness_blocks(const QuadShape& s, const Three& warp, const Three& fill, const Symmetric& d,
                                      const Three& n, Blocks& out) {
  // dE = B du with a row for each Mandel component; MB = weight * D B.
  Lanes b[2][3][3], mb[2][3][3];
  for (int i = 0; i < 2; ++i)
    for (int k = 0; k < 3; ++k) {
      b[i][0][k] = lanes(s.along_warp[i]) * warp.at[k];
      b[i][1][k] = lanes(s.along_fill[i]) * fill.at[k];
      b[i][2][k] = (lanes(s.along_warp[i]) * fill.at[k] + lanes(s.along_fill[i]) * warp.at[k]) * (0.5 * root2);
      const Three m = times(d, {{b[i][0][k], b[i][1][k], b[i][2][k]}});
      for (int r = 0; r < 3; ++r) mb[i][r][k] = lanes(s.weight) * m.at[r];
    }
  const auto material = [&](int i, int j, int k, int l) EVENPULL_ALWAYS {
    return b[i][0][k] * mb[j][0][l] + b[i][1][k] * mb[j][1][l] + b[i][2][k] * mb[j][2][l];
  };
  // Geometric part: weight * g_i . N g_j times the identity.
  const Lanes shear = n.at[2] * (1 / root2);
  Lanes along[2], across[2];
  for (int i = 0; i < 2; ++i) {
    along[i] = lanes(s.weight) * (n.at[0] * lanes(s.along_warp[i]) + shear * lanes(s.along_fill[i]));
    across[i] = lanes(s.weight) * (shear * lanes(s.along_warp[i]) + n.at[1] * lanes(s.along_fill[i]));
  }
  const auto geometric = [&](int i, int j) EVENPULL_ALWAYS {
    return lanes(s.along_warp[i]) * along[j] + lanes(s.along_fill[i]) * across[j];
  };
  const Lanes g00 = geometric(0, 0), g10 = geometric(1, 0), g11 = geometric(1, 1);
  Lanes third_second[3][3];
  for (int k = 0; k < 3; ++k)
    for (int l = 0; l < 3; ++l) {
      third_second[k][l] = material(1, 0, k, l);
      if (k == l) third_second[k][l] += g10;
      lanes(out.third_second[3 * k + l]) = third_second[k][l];
    }
  for (int k = 0; k < 3; ++k)
    for (int l = 0; l <= k; ++l) {
      Lanes second = material(0, 0, k, l), third = material(1, 1, k, l);
      if (k == l) {
        second += g00;
        third += g11;
      }
      lanes(out.second_first[3 * k + l]) = -(second + third_second[l][k]);
      lanes(out.third_first[3 * k + l]) = -(third + third_second[k][l]);
      if (k == l) continue;
      lanes(out.second_first[3 * l + k]) = -(second + third_second[k][l]);
      lanes(out.third_first[3 * l + k]) = -(third + third_second[l][k]);
    }
}

EVENPULL_INLINE void add_blocks(const Blocks& t, const std::array<int, 6>& pairs, std::array<double, 9>* out) {
  std::array<double, 9>& p10 = out[pairs[0]];
  std::array<double, 9>& p20 = out[pairs[1]];
  std::array<double, 9>& p30 = out[pairs[2]];
  std::array<double, 9>& p21 = out[pairs[3]];
  std::array<double, 9>& p13 = out[pairs[4]];
  std::array<double, 9>& p23 = out[pairs[5]];
  for (int e = 0; e < 9; ++e) {
    p10[e] += t.second_first[e][0] + t.second_first[e][3];
    p20[e] += t.third_first[e][0] + t.second_first[e][1];
    p30[e] += t.third_first[e][1] + t.third_first[e][3];
    p21[e] += t.third_second[e][0] + t.second_first[e][2];
  }
  for (int k = 0; k < 3; ++k)
    for (int l = 0; l < 3; ++l) {
      p13[3 * l + k] += t.third_first[3 * k + l][2] + t.third_second[3 * k + l][3];
      p23[3 * l + k] += t.third_second[3 * k + l][1] + t.third_second[3 * k + l][2];
    }
}

}  // namespace evenpull::in_lanes
