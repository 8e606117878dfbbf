// Joints with a range: what is drawn, what is run at its ends, what counts (docs/model.md, sections 5 and 9).
#include "sequencer/planner/planner.hpp"
#include "sequencer/replay/judge.hpp"
#include "sequencer/sure/frame_range.hpp"
#include "sequencer/sure/scenario.hpp"
#include "solver/frame/joint_turn.hpp"
#include "tests/sequencer/going_on.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace evenpull;

namespace {

Case joined(JointKind front, JointKind rear) {
  Case c = sample::aileron(3, 0.9, 0.35);
  for (Rib& r : c.ribs) r.front_joint.kind = front, r.rear_joint.kind = rear;
  return c;
}

}  // namespace

TEST_CASE("each kind of joint with a range is a number of its own, the last of a scenario") {
  const int others = numbers_of(joined(JointKind::rigid, JointKind::pinned));
  CHECK_FALSE(frame_varies(joined(JointKind::rigid, JointKind::pinned)));
  CHECK(numbers_of(joined(JointKind::welded, JointKind::welded)) == others + 1);
  CHECK(numbers_of(joined(JointKind::welded, JointKind::slid_in)) == others + 2);
  CHECK(numbers_of(joined(JointKind::unstated, JointKind::unstated)) == others + 1);
}

TEST_CASE("what was stated counts by itself at the worse end, what was not counts in the chances alone") {
  CHECK(range_counts(joined(JointKind::welded, JointKind::rigid)));
  CHECK_FALSE(range_counts(joined(JointKind::unstated, JointKind::rigid)));
  CHECK(range_counts(joined(JointKind::unstated, JointKind::tied)));
  CHECK(any_joint_unstated(joined(JointKind::unstated, JointKind::tied)));
  CHECK_FALSE(any_joint_unstated(joined(JointKind::welded, JointKind::tied)));
}

TEST_CASE("joints of a kind are drawn alike, in the middle of the range at no sigma, and else nothing is moved") {
  const Case c = joined(JointKind::welded, JointKind::tied);
  std::vector<double> z(static_cast<std::size_t>(numbers_of(c)), 0.0);
  Case drawn = drawn_case(c, z);
  for (const Rib& r : drawn.ribs) CHECK((r.front_joint.at == 0.5 && r.rear_joint.at == 0.5));
  z[z.size() - 2] = 2;
  drawn = drawn_case(c, z);
  CHECK(*drawn.ribs[1].front_joint.at == Approx(0.97725).epsilon(1e-4));  // of a normal distribution below 2 sigma
  CHECK(*drawn.ribs[1].rear_joint.at == 0.5);
  CHECK(drawn.materials[0].youngs_modulus == c.materials[0].youngs_modulus);
  // Numbers left out leave joints as usual.
  CHECK_FALSE(drawn_case(c, std::vector<double>(unsure_count, 0.0)).ribs[1].front_joint.at);
  const double temperature = c.cloth.curve[2].temperature;
  CHECK(regressors(c, z, temperature).size() == static_cast<std::size_t>(unsure_count) + 1);
  CHECK(regressors(c, z, temperature).back() == Approx(2 / std::sqrt(2.0)));
}

TEST_CASE("the ends of the range are all joints softest and all stiffest; rigid and pinned ones stay") {
  Case c = joined(JointKind::welded, JointKind::rigid);
  c.ribs[1].rear_joint.kind = JointKind::pinned;
  for (const JointEnd end : {JointEnd::softest, JointEnd::stiffest}) {
    const Case there = with_joints_at(c, end);
    for (const Rib& r : there.ribs) {
      CHECK(r.front_joint.at == (end == JointEnd::softest ? 0.0 : 1.0));
      CHECK_FALSE(r.rear_joint.at);
    }
  }
}

TEST_CASE("what weights told of bending up narrows what is drawn of it, and nothing else") {
  Case c = joined(JointKind::welded, JointKind::tied);
  Case told = c;
  tell_joints(told, JointKind::welded, {0.8, 0.3});
  std::vector<double> z(static_cast<std::size_t>(numbers_of(c)), 0.0);
  double least = 1, most = 0;
  for (const double sigmas : {-2.0, -1.0, 0.0, 1.0, 2.0}) {
    z[z.size() - 2] = sigmas;
    const Rib before = drawn_case(c, z).ribs[1], after = drawn_case(told, z).ribs[1];
    CHECK_FALSE(before.front_joint.at_up);
    CHECK(after.front_joint.at == before.front_joint.at);  // in the plane of the panel
    CHECK(after.rear_joint.at == before.rear_joint.at);
    CHECK_FALSE(after.rear_joint.at_up);
    REQUIRE(after.front_joint.at_up);
    CHECK(*after.front_joint.at_up == Approx(place_of_sigmas(0.8 + 0.3 * sigmas)));  // never closer than was told
    least = std::min(least, *after.front_joint.at_up), most = std::max(most, *after.front_joint.at_up);
  }
  CHECK(least > 0.55);
  CHECK(most < 0.93);
  const Case soft = with_joints_at(told, JointEnd::softest), stiff = with_joints_at(told, JointEnd::stiffest);
  CHECK(soft.ribs[1].front_joint.at == 0.0);
  CHECK(stiff.ribs[1].front_joint.at == 1.0);
  CHECK(*soft.ribs[1].front_joint.at_up == Approx(place_of_sigmas(0.2)));
  CHECK(*stiff.ribs[1].front_joint.at_up == Approx(place_of_sigmas(1.4)));
  // The springs follow: up stiffer than the softest of the range, flat as it.
  const Panel p = build_panel(c, {200});
  const auto all_soft = beam_ends(with_joints_at(c, JointEnd::softest), p), told_soft = beam_ends(soft, p);
  bool some = false;
  for (std::size_t i = 0; i < all_soft.size(); ++i) {
    CHECK(told_soft[i].from.flat == all_soft[i].from.flat);
    CHECK(told_soft[i].from.up >= all_soft[i].from.up);
    some = some || told_soft[i].from.up > all_soft[i].from.up;
  }
  CHECK(some);
}

namespace {

Plan planned(JointKind kind) {
  Case c = joined(kind, kind);
  c.stages.resize(1);
  c.stages[0].doses = {1};
  c.target_nodes = 120;
  c.wanted.scenarios = 0;
  PlanOptions o;
  o.only_rules = true;
  return make_plan(c, o);
}

}  // namespace

TEST_CASE("a plan is run at both ends of what its joints may be, and each limit is told with the worse", "[slow]") {
  const Plan p = planned(JointKind::welded_thin);
  REQUIRE(p.bounds.size() == 4);
  CHECK(p.bounds[2].joints == JointEnd::softest);
  CHECK(p.bounds[3].joints == JointEnd::stiffest);
  REQUIRE(p.bounds[2].worst_use.size() == 1);
  bool some_worse = false;
  for (const LimitReading& l : p.limits) {
    CHECK(l.use_of_worse_joints >= l.use);
    some_worse = some_worse || l.use_of_worse_joints > 1.01 * l.use;
  }
  CHECK(some_worse);
  CHECK(std::none_of(p.notes.begin(), p.notes.end(),
                     [](const Note& n) { return std::holds_alternative<note::JointsNotStated>(n); }));
}

TEST_CASE("joints that nobody stated are computed rigid, and what that may cost is told", "[slow]") {
  const Plan p = planned(JointKind::unstated), rigid = planned(JointKind::rigid);
  REQUIRE(p.bounds.size() == 4);
  REQUIRE(rigid.bounds.size() == 2);
  REQUIRE(p.limits.size() == rigid.limits.size());
  for (std::size_t i = 0; i < p.limits.size(); ++i) {
    CHECK(p.limits[i].use == rigid.limits[i].use);
    CHECK(p.limits[i].use_of_worse_joints == 0);
  }
  const auto told = note_in<note::JointsNotStated>(p);
  REQUIRE(told.computed);
  REQUIRE(told.softest);
  CHECK(*told.softest == p.bounds[2].worst_use.back());
}

TEST_CASE("a limit is judged with the joints at their worse end") {
  LimitReading l;
  l.limit = Limit::stress;
  l.use = 0.9, l.use_plus_minus = 0.05;
  CHECK(history_use({l}, true) == Approx(0.95));
  l.use_of_worse_joints = 1.1;
  CHECK(history_use({l}, true) == Approx(1.15));
  CHECK(history_use({l}, false) == 0.9);
}
