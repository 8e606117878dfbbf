// What a stage keeps for the drawings: its buckling shape and the thickness lost between ribs.
#include "sequencer/families.hpp"
#include "sequencer/replay.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace evenpull;

namespace {

ReplayResult short_job(Case c) {
  c.stages.resize(2);
  for (Stage& s : c.stages) s.doses = {1};
  c.iron = {1.0, 0.3, 0, 6, 0};  // one zone a bay and side
  MeshWish mesh;
  mesh.target_nodes = 250;
  const Model m(c, mesh);
  std::vector<Step> steps;
  for (int stage : {0, 1})
    for (std::size_t z = 0; z < m.panel.zones.size(); ++z) {
      Step s;
      s.stage = stage;
      s.zone = static_cast<int>(z);
      steps.push_back(s);
    }
  ReplayWish wish;
  wish.snapshots = true;
  return replay(m, steps, wish);
}

}  // namespace

TEST_CASE("each stage keeps the buckling shape of whichever state stands nearer to buckling") {
  const ReplayResult r = short_job(sample::light_rudder(3));
  REQUIRE(r.stages.size() == 2);
  for (const StageVerdict& v : r.stages) {
    REQUIRE(v.summary.buckling_mode);
    const BucklingMode& mode = *v.summary.buckling_mode;
    CHECK(mode.factor == v.summary.buckling_factor);
    const auto limit =
        std::find_if(v.limits.begin(), v.limits.end(), [](const LimitReading& l) { return l.name == "buckling"; });
    REQUIRE(limit != v.limits.end());
    CHECK(limit->value == mode.factor);
    CHECK(limit->when == mode.when);
    CHECK(mode.least_proven);
    CHECK(mode.residual < 1e-6);
    CHECK_FALSE(mode.where.empty());
    REQUIRE(mode.joint.size() == r.snapshots.front().joint_displacement.size());
    REQUIRE(mode.node.size() == r.snapshots.front().displacement.size());
    double largest = 0;
    for (std::size_t j = 0; j < mode.joint.size(); j += 6)
      largest = std::max<double>(largest, std::hypot(mode.joint[j], mode.joint[j + 1], mode.joint[j + 2]));
    for (std::size_t n = 0; n < mode.node.size(); n += 3)
      largest = std::max<double>(largest, std::hypot(mode.node[n], mode.node[n + 1], mode.node[n + 2]));
    CHECK(largest == Approx(1));
  }
}

TEST_CASE("the thickness lost at a stage is the sag of both skins in its last snapshot") {
  const ReplayResult r = short_job(sample::aileron(3, 0.9));
  REQUIRE(r.stages.size() == 2);
  for (const StageVerdict& v : r.stages) {
    const ThicknessLoss& loss = v.summary.thickness_loss;
    const std::vector<float>& sag = r.snapshots[r.stage_end_snapshot[v.stage]].sag;
    REQUIRE(v.summary.thickness_loss_by_bay.size() == 3);
    REQUIRE(loss.loss > 1e-3);  // the profile is curved there
    CHECK(loss.share() > 0);
    CHECK(loss.share() < 1);
    for (const ThicknessLoss& b : v.summary.thickness_loss_by_bay) CHECK(b.loss <= loss.loss);
    // Top first, then bottom, node by node.
    double both = 0;
    for (std::size_t n = 0; n < sag.size() / 2; ++n)
      if (std::abs(sag[n] - loss.top) < 1e-6) both = std::max<double>(both, sag[n] + sag[n + sag.size() / 2]);
    CHECK(both == Approx(loss.loss).margin(1e-6));
  }
}
