#include "sequencer/planner/planner.hpp"
#include "sequencer/sure/bench_checks.hpp"
#include "solver/ironing/ironing.hpp"
#include "solver/readings/readings.hpp"
#include "solver/sound/tight_bay.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

Case small() {
  Case c = sample::aileron(3, 0.9, 0.4);
  c.stages.resize(2);
  c.stages[0].doses = {1};
  c.stages[1].doses = {1};
  return c;
}

const Plan& quick_plan() {
  static const Plan plan = [] {
    PlanOptions o;
    o.accuracy = Accuracy::quick;
    o.only_rules = true;
    return make_plan(small(), o);
  }();
  return plan;
}

}  // namespace

TEST_CASE("a tighter stage sags less under a weight and sounds higher") {
  const Plan& p = quick_plan();
  const auto first = bench_checks(p, 0), second = bench_checks(p, 1);
  REQUIRE_FALSE(second.empty());
  for (const BenchCheck& b : second) {
    CHECK(b.sag_low < b.sag_high);
    CHECK(b.tap_low < b.tap_high);
    for (const BenchCheck& a : first) {
      if (a.bay != b.bay || a.side != b.side) continue;
      CHECK(a.sag_high / a.weight > b.sag_low / b.weight);
      CHECK(a.tap_low < b.tap_low);
    }
  }
}

TEST_CASE("cloth that is loose, or a plan without a picture of the moment, has nothing to weigh") {
  Plan p = quick_plan();
  CHECK(bench_checks(p, 7).empty());
  for (auto& state : p.snapshots[p.stage_end_snapshot[1]].state) state = 0;
  CHECK(bench_checks(p, 1).empty());
}

TEST_CASE("a weight laid on the panel itself sags about as the closed form says") {
  const Case c = small();
  const Model m(c, {1500});
  Ironing ironing(m);
  Covering s = ironing.begin();
  for (int stage = 0; stage < 2; ++stage)
    for (int z = 0; z < static_cast<int>(m.panel.zones.size()); ++z)
      ironing.iron(s, z, ironing.heat(stage, 1, 1, 1), "zone");
  const Panel& p = m.panel;
  const int column = (p.rib_columns[1] + p.rib_columns[2]) / 2;
  int first = -1;
  TightBay bay;
  double area = 0;
  for (int row = 0; row + 1 < p.rows; ++row)
    if (p.nodes[p.node(Side::top, row, column)].tie != Tie::none) first = row;
  for (int q = 0; q < static_cast<int>(p.quads.size()); ++q) {
    const Quad& quad = p.quads[q];
    if (quad.side != Side::top || quad.bay != 1 || quad.row < first) continue;
    const QuadPull pull = quad_pull(m, s, q);
    area += quad.area;
    bay.pull_chord += quad.area * pull.chord, bay.pull_span += quad.area * pull.span;
  }
  bay.pull_chord /= area, bay.pull_span /= area;
  const auto at = [&](int row, int col) { return p.nodes[p.node(Side::top, row, col)].placed; };
  bay.chordwise = (at(p.rows - 1, column) - at(first, column)).norm();
  bay.spanwise = (at(first, p.rib_columns[2]) - at(first, p.rib_columns[1])).norm();

  // An even load over the disc: its middle sags by P/(4 pi N) more than a rigid disc does.
  const int middle = p.node(Side::top, (first + p.rows - 1) / 2, column);
  const Eigen::Vector3d centre = p.nodes[middle].placed;
  const double radius = check_disc / 2, force = 5;
  std::vector<int> under;
  for (int n = 0; n < static_cast<int>(p.nodes.size()); ++n)
    if (p.nodes[n].side == Side::top && (p.nodes[n].placed - centre).norm() <= radius) under.push_back(n);
  REQUIRE(under.size() > 8);
  const auto height = [&] { return displacement(m.unknowns.nodes[middle], s.unknowns).z(); };
  const double before = height();
  s.load = Eigen::VectorXd::Zero(s.unknowns.size());
  for (const int n : under) {
    const NodeMap& node = m.unknowns.nodes[n];
    for (int k = 0; k < node.count; ++k)
      s.load[node.index[k]] -= node.column(2, k) * force / static_cast<double>(under.size());
  }
  ironing.rebalance(s, "a weight laid on");
  const double sag = before - height();
  const double even = force / (4 * M_PI * std::sqrt(bay.pull_chord * bay.pull_span));
  const double most = sag_under_disc(bay, force, radius) + even;
  const double least = least_sag_under_disc(bay, force, radius, 100e3) * most / (most - even);
  // Pull differs from place to place in the bay by a tenth, and its skin is a little curved.
  CHECK(sag < 1.1 * most);
  CHECK(sag > 0.9 * least);
}

TEST_CASE("a stage whose pull has no error bar has nothing to weigh by") {
  Plan p = quick_plan();
  REQUIRE_FALSE(bench_checks(p, 1).empty());
  for (StageSummary& s : p.stages)
    for (NumberStudy& study : s.pull_chord_study) study.gave_way = true;
  CHECK(bench_checks(p, 1).empty());
}
