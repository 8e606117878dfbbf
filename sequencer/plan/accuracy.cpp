#include "sequencer/plan/accuracy.hpp"

#include <cmath>

namespace evenpull::inline sequencer {
namespace {

// The coarsest mesh worth having, about two quads a zone. It picks the order that the one of the searches picks, and what
// it misses of a scenario's use is hardly more, for half the time (bench/RECORD.md).
constexpr int least_nodes = 120;

}  // namespace

MeshOptions search_mesh(Accuracy a) { return {a == Accuracy::fine ? search_nodes : least_nodes}; }

MeshOptions trial_mesh() { return {least_nodes}; }

MeshOptions ranking_mesh(Accuracy a) {
  return {a == Accuracy::quick ? least_nodes : a == Accuracy::normal ? search_nodes : coarse_nodes};
}

MeshOptions scenario_mesh() { return {least_nodes}; }

MeshOptions plan_mesh(const Case& c, Accuracy a) { return {a == Accuracy::quick ? coarse_nodes : c.target_nodes}; }

std::optional<MeshOptions> half_mesh(const Case& c, Accuracy a) {
  if (a == Accuracy::quick || c.target_nodes < 2 * coarse_nodes) return {};
  MeshOptions half = plan_mesh(c, a);
  half.fineness = 1;
  return half;
}

std::vector<MeshOptions> study_meshes_of(const Case& c, Accuracy a) {
  if (a == Accuracy::quick) return {};
  const MeshOptions plain = plan_mesh(c, a);
  const auto run = [&](int fineness, int parts) {
    MeshOptions w = plain;
    w.fineness = fineness;
    w.zone_parts = parts;
    return w;
  };
  // A mesh as coarse as the one that ranks orders cannot be coarsened, so its study goes on where others end.
  const bool coarse = !half_mesh(c, a);
  if (a == Accuracy::normal) return {run(coarse ? 4 : 3, 1), run(coarse ? 2 : 1, 2), run(coarse ? 6 : 1, 1)};
  return {run(4, 1), run(2, 2), run(coarse ? 8 : 1, 1)};
}

double mean_edge(const Panel& p) {
  double area = 0;
  for (const Quad& q : p.quads) area += q.area;
  return std::sqrt(area / static_cast<double>(p.quads.size()));
}

}  // namespace evenpull::inline sequencer
