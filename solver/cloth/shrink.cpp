#include "solver/cloth/shrink.hpp"

#include "solver/statement/errors.hpp"

#include <algorithm>

namespace evenpull::inline solver {
namespace {

// Share of the way from point i to point i + 1: piecewise linear is monotone wherever the data are.
struct Between {
  std::size_t low = 0;
  double share = 0;
};

Between locate(const std::vector<ShrinkPoint>& curve, double temperature) {
  if (temperature >= curve.back().temperature) return {curve.size() - 2, 1.0};
  std::size_t i = 0;
  while (i + 2 < curve.size() && curve[i + 1].temperature <= temperature) ++i;
  const double width = curve[i + 1].temperature - curve[i].temperature;
  return {i, std::clamp((temperature - curve[i].temperature) / width, 0.0, 1.0)};
}

double mix(double low, double high, double share) { return low + share * (high - low); }

}  // namespace

double looseness_strain(double x) { return 0.5 * ((1 + x) * (1 + x) - 1); }

double shrink_strain(double y) { return 0.5 * (1 - (1 - y) * (1 - y)); }

ShrinkState shrink_at(const Cloth& cloth, const Eigen::Matrix3d& c, double temperature) {
  ShrinkState out;
  if (temperature <= cloth.curve.front().temperature) return out;
  const Between at = locate(cloth.curve, temperature);
  const ShrinkPoint &low = cloth.curve[at.low], &high = cloth.curve[at.low + 1];
  out.free_shrink[0] = shrink_strain(mix(low.free_shrink.warp, high.free_shrink.warp, at.share));
  out.free_shrink[1] = shrink_strain(mix(low.free_shrink.fill, high.free_shrink.fill, at.share));
  out.fixed_length_pull[0] = mix(low.pull.warp, high.pull.warp, at.share);
  out.fixed_length_pull[1] = mix(low.pull.fill, high.pull.fill, at.share);
  const Mandel elastic = c * Mandel(out.fixed_length_pull[0], out.fixed_length_pull[1], 0);
  for (int d = 0; d < 2; ++d) {
    if (out.fixed_length_pull[d] <= 0) {
      out.free_shrink[d] = 0;  // no pull, no load line: treated as no shrink
      continue;
    }
    if (elastic[d] >= out.free_shrink[d])
      throw CaseError("cloth.curve",
                      "the pull at fixed length stretches the cloth more than the heat shrinks it at this temperature; "
                      "raise the free shrink, lower the pull, or check the stiffness");
    out.limit_pull[d] = out.fixed_length_pull[d] / (1 - elastic[d] / out.free_shrink[d]);
  }
  return out;
}

}  // namespace evenpull::inline solver
