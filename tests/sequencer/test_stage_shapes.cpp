// What a stage keeps for the drawings: its buckling shape and the thickness lost between ribs.
#include "sequencer/orders/families.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/sure/bench_checks.hpp"
#include "solver/readings/readings.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>

using namespace evenpull;

namespace {

constexpr int short_job_nodes = 250;

Case shortened(Case c) {
  c.stages.resize(2);
  for (Stage& s : c.stages) s.doses = {1};
  c.iron = {1.0, 0.3, 0, 6, 0};  // one zone a bay and side
  return c;
}

ReplayResult short_job(const Case& whole) {
  const Case c = shortened(whole);
  MeshOptions mesh;
  mesh.target_nodes = short_job_nodes;
  const Model m(c, mesh);
  std::vector<Step> steps;
  for (int stage : {0, 1})
    for (std::size_t z = 0; z < m.panel.zones.size(); ++z) {
      Step s;
      s.stage = stage;
      s.zone = static_cast<int>(z);
      steps.push_back(s);
    }
  ReplayOptions options;
  options.snapshots = true;
  return replay(m, steps, options);
}

}  // namespace

TEST_CASE("each stage keeps the buckling shape of whichever state stands nearer to buckling") {
  const ReplayResult r = short_job(sample::light_rudder(3));
  REQUIRE(r.stages.size() == 2);
  for (const StageVerdict& v : r.stages) {
    REQUIRE(v.summary.buckling_mode);
    const BucklingMode& mode = *v.summary.buckling_mode;
    CHECK(mode.factor == v.summary.buckling_factor);
    const auto limit = std::find_if(v.limits.begin(), v.limits.end(),
                                    [](const LimitReading& l) { return l.limit == Limit::buckling; });
    REQUIRE(limit != v.limits.end());
    CHECK(limit->value == mode.factor);
    CHECK(limit->when == mode.when);
    CHECK(mode.least_proven);
    CHECK(mode.residual < 1e-6);
    CHECK(mode.where.kind != Place::Kind::whole_panel);
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

TEST_CASE("twist and pull differences of a moment are those of what is drawn of it") {
  const Case c = sample::aileron(3, 0.9);
  const ReplayResult r = short_job(c);
  const Panel p = build_panel(shortened(c), {short_job_nodes});
  double worst_twist = 0;
  for (const Snapshot& now : r.snapshots) {
    std::vector<std::pair<double, double>> slope_at;  // station, slope of the chord line
    for (const FrameMember& m : p.members) {
      if (m.role != MemberRole::end_rib && m.role != MemberRole::inner_rib) continue;
      const auto &a = p.joints[m.joints.front()].position, &b = p.joints[m.joints.back()].position;
      const double up =
          now.joint_displacement[6 * m.joints.back() + 2] - now.joint_displacement[6 * m.joints.front() + 2];
      slope_at.emplace_back(a.y(), std::atan(up / (b.x() - a.x())));
    }
    std::sort(slope_at.begin(), slope_at.end());
    const auto [low, high] = std::minmax_element(slope_at.begin(), slope_at.end(),
                                                 [](const auto& a, const auto& b) { return a.second < b.second; });
    CHECK(now.twist == Approx(high->second - low->second).margin(1e-6));
    CHECK(now.tip_turn == Approx(slope_at.back().second - slope_at.front().second).margin(1e-6));
    worst_twist = std::max(worst_twist, now.twist);

    double worst = 0;
    for (int bay = 0; bay < p.bays; ++bay) {
      double sum[2] = {}, area[2] = {};
      for (std::size_t q = 0; q < p.quads.size(); ++q)
        if (p.quads[q].bay == bay)
          sum[static_cast<int>(p.quads[q].side)] += p.quads[q].area * now.pull_chord[q],
              area[static_cast<int>(p.quads[q].side)] += p.quads[q].area;
      const double difference = sum[0] / area[0] - sum[1] / area[1];
      if (std::abs(difference) > std::abs(worst)) worst = difference;
    }
    CHECK(now.difference_chord == Approx(worst).epsilon(1e-4).margin(1e-3));
  }
  CHECK(worst_twist > 1e-4);
}

TEST_CASE("cloth that shrinks less than it lies loose is named zone by zone, and no stage can be the last") {
  Case c = sample::light_rudder(3);
  for (ShrinkPoint& p : c.cloth.curve)
    p.free_shrink = {0.08 * p.free_shrink.warp, 0.08 * p.free_shrink.fill},
    p.pull = {0.08 * p.pull.warp, 0.08 * p.pull.fill};
  const ReplayResult r = short_job(c);
  REQUIRE(r.stages.size() == 2);
  for (const StageVerdict& v : r.stages) {
    CHECK(v.summary.loose_zones.size() == 6);  // all
    CHECK(history_use(v.limits, true) < 0.1);  // it loads nothing
  }
  CHECK_FALSE(stage_ceiling(r.stages, true).has_value());

  const ReplayResult usual = short_job(sample::light_rudder(3));
  for (const StageVerdict& v : usual.stages) CHECK(v.summary.loose_zones.empty());
}

TEST_CASE("a zone that no pass reached is loose at the end, the others are not") {
  Case c = sample::light_rudder(3);
  c.iron = {1.0, 0.3, 0, 6, 0};
  c.blanket.edge_glued = true;  // so that a side does not pull the other tight
  MeshOptions mesh;
  mesh.target_nodes = 250;
  const Model m(c, mesh);
  std::vector<Step> steps;
  for (std::size_t z = 0; z < m.panel.zones.size(); ++z)
    if (m.panel.zones[z].side == Side::top) steps.push_back({0, 1, 1, 1, static_cast<int>(z), 1});
  const ReplayResult r = replay(m, steps, {});
  std::vector<int> bottom;
  for (std::size_t z = 0; z < m.panel.zones.size(); ++z)
    if (m.panel.zones[z].side == Side::bottom) bottom.push_back(static_cast<int>(z));
  CHECK(r.stages.front().summary.loose_zones == bottom);
}

TEST_CASE("where the frame gives way on the way no end is summed up, and nothing is to be weighed or tapped") {
  Case c = sample::light_rudder(3);
  for (Rib& rib : c.ribs) rib.make.shape.outside_diameter = 3e-3, rib.make.shape.wall = 0.4e-3;
  for (SpanMember& s : c.span_members)
    if (s.role == SpanRole::trailing_edge) s.make.shape.outside_diameter = 3e-3, s.make.shape.wall = 0.4e-3;
  ReplayResult r = short_job(c);
  const StageVerdict& v = r.stages.back();
  REQUIRE(v.buckled);
  CHECK(v.summary.gave_way);
  CHECK_FALSE(v.summary.settled);
  CHECK_FALSE(v.summary.buckling_factor.has_value());
  CHECK_FALSE(v.summary.unevenness[0].chord.has_value());
  const auto buckling =
      std::find_if(v.limits.begin(), v.limits.end(), [](const LimitReading& l) { return l.limit == Limit::buckling; });
  REQUIRE(buckling != v.limits.end());
  CHECK(buckling->gave_way);
  CHECK(buckling->use > 1);
  Plan p;
  p.the_case = c;
  p.stages = {v.summary};
  p.snapshots = std::move(r.snapshots), p.stage_end_snapshot = std::move(r.stage_end_snapshot);
  p.panel = build_panel(c, {});
  CHECK(bench_checks(p, v.stage).empty());
}
