#include "solver/cloth/quad_kernel.hpp"

#include "solver/cloth/quad_lanes.hpp"

namespace evenpull::inline solver {
namespace {

using namespace in_lanes;

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

}  // namespace evenpull::inline solver
