// From readings to limits: bows as they hang, in time and beside welds (docs/model.md, section 7).
#include "sequencer/planner/advice.hpp"
#include "sequencer/replay/judge.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;

namespace {

const LimitReading* of(const std::vector<LimitReading>& all, Limit limit) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const LimitReading& l) { return l.limit == limit; });
  return at == all.end() ? nullptr : &*at;
}

Readings some_readings() {
  Readings r;
  r.stress_use.value = r.metal_stress_use.value = 0.4;
  r.stress_use.member = r.metal_stress_use.member = 0, r.metal_stress_use.joint = 0;
  r.metal_stress_use.allowed = 50e6, r.metal_stress_use.at_weld = true;
  r.edge_bow.value = 0.002, r.edge_bow.allowed = 0.005, r.edge_bow.lasting = 2, r.edge_bow.bay = 1;
  r.end_rib_bow.value = 0.001, r.end_rib_bow.allowed = 0.01, r.end_rib_bow.member = 2;
  r.hinge_line_bow.value = 3e-3, r.hinge_line_bow.allowed = 2e-3, r.hinge_line_bow.member = 0;
  r.whole_edge_bow.value = 0.004;
  return r;
}

Model small_model() {
  Case c = sample::light_rudder(2);
  return Model(c, {150});
}

}  // namespace

TEST_CASE("the line of the hinges is judged as the panel hangs, and only where a limit was asked for") {
  const Model m = small_model();
  StageJudge judge(m, 0);
  judge.take(some_readings(), Moment::stage_end);
  CHECK(of(judge.limits(), Limit::hinge_line_bow) == nullptr);
  judge.take(some_readings(), Moment::released);
  const LimitReading* hinge = of(judge.limits(), Limit::hinge_line_bow);
  REQUIRE(hinge);
  CHECK(hinge->use == Approx(1.5));
  CHECK(hinge->when == Moment::released);
  CHECK(kind_of(Limit::hinge_line_bow) == LimitKind::distortion);
  CHECK(history_use(judge.limits(), false) == Approx(1.5));
  CHECK(of(judge.limits(), Limit::whole_edge_bow) == nullptr);  // told, not limited
}

TEST_CASE("a bow of wood is judged by what it comes to in time, a stress by what the material bears at that place") {
  const Model m = small_model();
  StageJudge judge(m, 0);
  judge.take(some_readings(), Moment::on_the_way);
  const LimitReading &edge = *of(judge.limits(), Limit::edge_bow), &stress = *of(judge.limits(), Limit::stress);
  CHECK(edge.value == Approx(0.004));
  CHECK(edge.lasting == 2);
  CHECK(edge.use == Approx(0.8));
  CHECK(stress.use == 0.4);
  CHECK(stress.value == Approx(20e6));
  CHECK(stress.allowed == 50e6);
  CHECK(stress.at_weld);
}

TEST_CASE("coats that tauten leave nothing to advise but to ask") {
  Case c = sample::light_rudder(2);
  StageVerdict v;
  v.limits = {{}};
  c.finish = FinishKind::tautening;
  const Advice a = advise(c, {v}, {{0, {Lacking::coats}}}, {}, {});
  CHECK(a.up_to == Advice::UpTo::coats_tauten);
  REQUIRE(a.items.size() == 2);
  CHECK(std::holds_alternative<advice::CoatsTauten>(a.items[0]));
  CHECK(std::holds_alternative<advice::StopAndAsk>(a.items[1]));
  CHECK(a.stops.empty());
}
