#include "solver/cloth/quad_kernel.hpp"

#include "solver/cloth/fabric_law.hpp"
#include "solver/numerics/lanes.hpp"

#include <cmath>

namespace evenpull {
namespace {

constexpr double root2 = 1.41421356237309504880;

// Three components of a vector, or three Mandel numbers.
struct Three {
  Lanes at[3];
};

EVENPULL_INLINE Lanes dot(const Three& a, const Three& b) {
  return a.at[0] * b.at[0] + a.at[1] * b.at[1] + a.at[2] * b.at[2];
}

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

EVENPULL_INLINE Lanes determinant(const Three& t) {
  return t.at[0] * t.at[1] - 0.5 * t.at[2] * t.at[2];
}

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

EVENPULL_INLINE Three load(const std::array<Four, 3>& v) {
  return {{lanes(v[0]), lanes(v[1]), lanes(v[2])}};
}
EVENPULL_INLINE void store(std::array<Four, 3>& to, const Three& v) {
  for (int k = 0; k < 3; ++k) lanes(to[k]) = v.at[k];
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

EVENPULL_INLINE QuadSums evaluate(const std::vector<QuadShape>& shapes, const std::vector<QuadState>& states,
                                  const Padded* x, const QuadLaw& law, std::vector<QuadWork>& work,
                                  const QuadTargets& out) {
  Symmetric cold;
  for (int k = 0; k < 6; ++k) cold.at[k] = Lanes{} + law.compliance[k];
  Lanes change = {0, 0, 0, 0}, gap = {0, 0, 0, 0};
  for (std::size_t q = 0; q < shapes.size(); ++q) {
    const QuadShape& s = shapes[q];
    const QuadState& state = states[q];
    QuadWork& w = work[q];
    Three second, third, warp, fill;
    corner_differences(s.nodes, x, second, third);
    images(s, second, third, warp, fill);

    const Three n = load(state.pull), wrinkle = load(state.wrinkle), give = times(cold, n);
    Three mismatch;
    mismatch.at[0] = give.at[0] - (0.5 * (dot(warp, warp) - 1.0) + lanes(state.shift[0])) - wrinkle.at[0] -
                     lanes(state.more_shrink[0]);
    mismatch.at[1] = give.at[1] - (0.5 * (dot(fill, fill) - 1.0) + lanes(state.shift[1])) - wrinkle.at[1] -
                     lanes(state.more_shrink[1]);
    mismatch.at[2] = give.at[2] - (0.5 * root2) * dot(warp, fill) - wrinkle.at[2];
    const Three inv = tensor_inverse(n);
    Symmetric m = symmetric_product(inv, wrinkle);
    for (int k = 0; k < 6; ++k) m.at[k] += cold.at[k];
    m.at[0] += lanes(state.more_give[0]);
    m.at[2] += lanes(state.more_give[1]);
    const Symmetric d = inverse(m);
    Three wanted;
    for (int k = 0; k < 3; ++k) wanted.at[k] = law.smoothing * inv.at[k] - wrinkle.at[k] - mismatch.at[k];
    const Three correction = times(d, wanted);

    for (int k = 0; k < 3; ++k) {
      const Lanes size = correction.at[k] < 0 ? -correction.at[k] : correction.at[k];
      change = size > change ? size : change;
    }
    gap += lanes(s.weight) * (dot(n, wrinkle) + dot(mismatch, mismatch) * (1 / law.softest));
    for (int k = 0; k < 3; ++k) {
      lanes(w.f[k]) = warp.at[k];
      lanes(w.f[3 + k]) = fill.at[k];
    }
    for (int k = 0; k < 6; ++k) lanes(w.stiffness[k]) = d.at[k];
    store(w.correction, correction);

    alignas(32) double on_second[3][4], on_third[3][4];
    corner_forces(s, warp, fill, n, on_second, on_third);
    add_to_nodes(s.nodes, on_second, on_third, out.force);
    Three next;
    for (int k = 0; k < 3; ++k) next.at[k] = n.at[k] + correction.at[k];
    corner_forces(s, warp, fill, next, on_second, on_third);
    add_to_nodes(s.nodes, on_second, on_third, out.predicted);

    Blocks blocks;
    stiffness_blocks(s, warp, fill, d, n, blocks);
    add_blocks(blocks, out.pairs[q], out.blocks);
  }
  QuadSums sums;
  for (int k = 0; k < lane_count; ++k) {
    sums.tension_change = change[k] > sums.tension_change ? change[k] : sums.tension_change;
    sums.gap += gap[k];
  }
  return sums;
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

EVENPULL_INLINE void advance(const std::vector<QuadShape>& shapes, const std::vector<QuadWork>& work, const Padded* du,
                             double smoothing, std::vector<QuadState>& states) {
  for (std::size_t q = 0; q < shapes.size(); ++q) {
    const QuadWork& w = work[q];
    QuadState& state = states[q];
    Three second, third, d_warp, d_fill;
    corner_differences(shapes[q].nodes, du, second, third);
    images(shapes[q], second, third, d_warp, d_fill);
    const Three warp = {{lanes(w.f[0]), lanes(w.f[1]), lanes(w.f[2])}};
    const Three fill = {{lanes(w.f[3]), lanes(w.f[4]), lanes(w.f[5])}};
    const Three strain = {
        {dot(warp, d_warp), dot(fill, d_fill), (0.5 * root2) * (dot(warp, d_fill) + dot(fill, d_warp))}};
    Symmetric d;
    for (int k = 0; k < 6; ++k) d.at[k] = lanes(w.stiffness[k]);
    Three pull_step = times(d, strain);
    for (int k = 0; k < 3; ++k) pull_step.at[k] += lanes(w.correction[k]);

    Three n = load(state.pull), wrinkle = load(state.wrinkle);
    const Three inv = tensor_inverse(n), taken = times(symmetric_product(inv, wrinkle), pull_step);
    Three wrinkle_step;
    for (int k = 0; k < 3; ++k) wrinkle_step.at[k] = smoothing * inv.at[k] - wrinkle.at[k] - taken.at[k];
    const Lanes by_pull = longest_step(n, pull_step), by_wrinkle = longest_step(wrinkle, wrinkle_step);
    for (int k = 0; k < 3; ++k) {
      n.at[k] += by_pull * pull_step.at[k];
      wrinkle.at[k] += by_wrinkle * wrinkle_step.at[k];
    }
    store(state.pull, n);
    store(state.wrinkle, wrinkle);
  }
}

#if defined(__x86_64__)
EVENPULL_WIDE QuadSums evaluate_wide(const std::vector<QuadShape>& shapes, const std::vector<QuadState>& states,
                                     const Padded* x, const QuadLaw& law, std::vector<QuadWork>& work,
                                     const QuadTargets& out) {
  return evaluate(shapes, states, x, law, work, out);
}
EVENPULL_WIDE void advance_wide(const std::vector<QuadShape>& shapes, const std::vector<QuadWork>& work,
                                const Padded* du, double smoothing, std::vector<QuadState>& states) {
  advance(shapes, work, du, smoothing, states);
}
#endif

}  // namespace

QuadSums evaluate_quads(const std::vector<QuadShape>& shapes, const std::vector<QuadState>& states, const Padded* x,
                        const QuadLaw& law, std::vector<QuadWork>& work, const QuadTargets& out) {
#if defined(__x86_64__)
  if (has_wide_lanes) return evaluate_wide(shapes, states, x, law, work, out);
#endif
  return evaluate(shapes, states, x, law, work, out);
}

void advance_quads(const std::vector<QuadShape>& shapes, const std::vector<QuadWork>& work, const Padded* du,
                   double smoothing, std::vector<QuadState>& states) {
#if defined(__x86_64__)
  if (has_wide_lanes) return advance_wide(shapes, work, du, smoothing, states);
#endif
  advance(shapes, work, du, smoothing, states);
}

}  // namespace evenpull
