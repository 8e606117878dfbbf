#include "sequencer/planner/advice.hpp"
#include "sequencer/replay/ceiling.hpp"
#include "sequencer/sure/error_bars.hpp"
#include "sequencer/sure/safety.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

StageVerdict stage(double stress, double pull = 300) {
  StageVerdict v;
  LimitReading l;
  l.limit = Limit::stress;
  l.where.kind = Place::Kind::across_member, l.where.member = 1;
  l.value = 1e8 * stress;
  l.allowed = 1e8;
  l.use = stress;
  v.limits = {l};
  for (int side = 0; side < 2; ++side) v.summary.mean_pull_chord[side] = v.summary.mean_pull_span[side] = pull;
  v.worst_slip = v.summary.worst_slip = 1e-5 * pull;
  return v;
}

StudyRun run(int fineness, int parts, const StageVerdict& v) {
  StudyRun r;
  r.fineness = fineness;
  r.zone_parts = parts;
  r.edge = 0.04 / fineness;
  r.stages = {v};
  return r;
}

// use = 0.9 + 50 h^2, pull = 300 - 1e4 h^2, and 0.02 more use with zones cut in two on the plan's mesh.
double use(int fineness) { return 0.9 + 50 * std::pow(0.04 / fineness, 2); }
double pull(int fineness) { return 300 - 1e4 * std::pow(0.04 / fineness, 2); }

std::vector<StudyRun> settling_runs() {
  std::vector<StudyRun> runs = {run(4, 1, stage(use(4), pull(4))), run(2, 2, stage(use(2) + 0.02, pull(2) - 3)),
                                run(1, 1, stage(use(1), pull(1))), run(2, 1, stage(use(2), pull(2)))};
  runs[0].stages[0].limits[0].where.member = 2;
  return runs;
}

}  // namespace

TEST_CASE(
    "the number printed is that of the finest mesh, its bar the index of the study and what smaller zones change") {
  const StageVerdict v = with_error_bars({stage(use(2), pull(2))}, settling_runs())[0];
  const LimitReading& l = v.limits[0];
  CHECK(l.use == use(4));
  CHECK(l.value == Approx(1e8 * use(4)));
  CHECK(l.where.member == 2);
  CHECK(l.study.order == Approx(2));
  CHECK(l.study.extrapolated == Approx(0.9));
  CHECK(l.study.mesh_plus_minus == Approx(1.25 * 50 * 1e-4));
  CHECK(l.study.zone_plus_minus == Approx(0.02));
  CHECK(l.use_plus_minus == Approx(l.study.mesh_plus_minus + 0.02));
  REQUIRE(l.study.mesh.size() == 3);
  CHECK(l.study.mesh.front().size > l.study.mesh.back().size);
  // The bar holds the limit.
  CHECK(std::abs(l.study.extrapolated - l.use) < l.use_plus_minus);
}

TEST_CASE("what smaller zones change on the mesh of twice the edge counts with a margin") {
  std::vector<StudyRun> runs = settling_runs();
  runs[1].fineness = 1;
  runs[1].stages[0].limits[0].use = use(1) + 0.02;
  const LimitReading l = with_error_bars({stage(use(2), pull(2))}, runs)[0].limits[0];
  REQUIRE(l.study.zones.size() == 1);
  CHECK(l.study.zones[0].change == Approx(0.02));
  CHECK(l.study.zone_plus_minus == Approx(1.25 * 0.02));
}

TEST_CASE("pull and slip of the stage carry bars of their own") {
  const StageVerdict v = with_error_bars({stage(use(2), pull(2))}, settling_runs())[0];
  CHECK(v.summary.mean_pull_chord[1] == pull(4));
  CHECK(v.summary.pull_chord_study[1].extrapolated == Approx(300));
  CHECK(v.summary.pull_span_study[0].plus_minus() == Approx(1.25 * 1e4 * 1e-4 + 3));
  CHECK(v.summary.slip_study.extrapolated == Approx(3e-3));
  CHECK(v.summary.worst_slip == Approx(1e-5 * pull(4)));
}

TEST_CASE("the ceiling takes the pessimistic end of what is printed") {
  // 0.985 on the finest mesh holds, with its bar it does not.
  std::vector<StudyRun> runs = {run(1, 1, stage(0.94)), run(2, 1, stage(0.97)), run(3, 1, stage(0.985))};
  const auto judged = with_error_bars({stage(0.97)}, runs);
  CHECK(judged[0].limits[0].use == 0.985);
  CHECK(stage_ceiling(judged, false) == 0);
  CHECK_FALSE(stage_ceiling(judged, true).has_value());
}

TEST_CASE("a reading that wavers from mesh to mesh has the spread as its bar") {
  const auto judged =
      with_error_bars({stage(0.5)}, {run(1, 1, stage(0.47)), run(2, 1, stage(0.5)), run(4, 1, stage(0.49))});
  CHECK(judged[0].limits[0].study.approach == Approach::wavering);
  CHECK(judged[0].limits[0].use_plus_minus == Approx(0.03));
}

TEST_CASE(
    "a stage at which the frame gave way on any mesh, or with smaller zones, is not safe, however small its use") {
  for (std::size_t which : {0, 1, 2}) {
    std::vector<StudyRun> runs = settling_runs();
    for (StudyRun& r : runs) r.stages[0].limits[0].use *= 0.1;
    runs[which].stages[0].buckled = true;
    const auto judged = with_error_bars({stage(0.1 * use(2))}, runs);
    CHECK(gave_way_in_study(judged[0]));
    CHECK_FALSE(stage_ceiling(judged, true).has_value());
  }
}

TEST_CASE("a stage that ended before it began on another mesh is not safe either") {
  std::vector<StudyRun> runs = settling_runs();
  runs[0].stages.clear();
  CHECK_FALSE(stage_ceiling(with_error_bars({stage(0.1)}, runs), true).has_value());
}

TEST_CASE("a run that found no equilibrium in a stage leaves the stages before their bars and makes that one unsafe") {
  std::vector<StudyRun> runs = settling_runs();
  for (StudyRun& r : runs) {
    r.stages[0].limits[0].use *= 0.5;
    r.stages.push_back(r.stages[0]);
    r.stages[1].stage = r.stages[1].limits[0].stage = 1;
  }
  const std::vector<StageVerdict> plain = runs.back().stages;
  CHECK(stage_ceiling(with_error_bars(plain, runs), true) == 1);
  runs[0].stages.pop_back();
  runs[0].unsolved = true;
  const auto judged = with_error_bars(plain, runs);
  CHECK(stage_ceiling(judged, true) == 0);
  CHECK_FALSE(gave_way_in_study(judged[0]));
  CHECK(gave_way_in_study(judged[1]));
}

TEST_CASE("a use and its bar as printed are over the limit exactly if the stage is") {
  for (int i = 0; i < 400; ++i) {
    const double use = 0.9 + 0.0007 * (i % 143), bar = 0.00031 * i;
    const double printed = std::round(use * 100) / 100 + printed_bar(use, bar);
    INFO(use << " with " << bar);
    CHECK((std::round(printed * 100) > 100) == (use + bar > 1 + 1e-9));
    CHECK(printed >= use + bar - 1e-9);
  }
  CHECK(printed_bar(0.83, 0.02) == Approx(0.02));
}

TEST_CASE("the runs behind the bars are those of the accuracy, the plan's own mesh among them in all but name") {
  Case c = sample::aileron();
  CHECK(study_meshes_of(c, Accuracy::quick).empty());
  CHECK(plan_mesh(c, Accuracy::quick).target_nodes == coarse_nodes);
  CHECK(plan_mesh(c, Accuracy::fine).target_nodes == c.target_nodes);
  for (int nodes : {200, 2000})
    for (Accuracy a : {Accuracy::normal, Accuracy::fine}) {
      c.target_nodes = nodes;
      int meshes = 1, zones = 0;  // the plan's own
      for (const MeshOptions& w : study_meshes_of(c, a)) {
        (w.zone_parts == 1 ? meshes : zones) += 1;
        CHECK((w.zone_parts > 1 || w.fineness != 2));
      }
      CHECK(meshes == 3);
      CHECK(zones == 1);
    }
}

TEST_CASE("the finer accuracy goes to the finer mesh") {
  const Case c = sample::aileron();
  const auto finest = [&](Accuracy a) {
    int f = 0;
    for (const MeshOptions& w : study_meshes_of(c, a)) f = std::max(f, w.fineness);
    return f;
  };
  CHECK(finest(Accuracy::fine) > finest(Accuracy::normal));
}

TEST_CASE("slip of a stage that was done before is studied as it is printed") {
  std::vector<StudyRun> runs = settling_runs();
  StageVerdict done = stage(use(2), pull(2));
  for (StudyRun& r : runs) r.stages[0].worst_slip = 0, r.stages[0].limits.clear();
  done.worst_slip = 0, done.limits.clear();
  const StageVerdict v = with_error_bars({done}, runs)[0];
  CHECK(v.summary.worst_slip == Approx(1e-5 * pull(4)));
  CHECK(v.summary.slip_study.extrapolated == Approx(1e-5 * 300));
  CHECK(v.summary.slip_study.plus_minus() > 0);
}

TEST_CASE("where a run behind the bars gave way the reading that stops it says so") {
  std::vector<StudyRun> runs = settling_runs();
  runs[0].stages[0].buckled = true;
  const Case c = sample::aileron();
  const std::vector<StageVerdict> judged = with_error_bars({stage(use(2), pull(2))}, runs);
  const Advice a = advise(c, judged, stage_safety(judged, {}), {}, {});
  REQUIRE(a.stops.size() == 1);
  CHECK(a.stops[0].over.value().study.gave_way);  // which is said without a bar
}
