// Joints of the frame in words: as they were stated, what they let turn, what both ends of the range cost.
#include "tests/support/sample_case.hpp"
#include "viz/words/joint_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/note_words.hpp"
#include "viz/words/record_words.hpp"
#include "viz/words/section_words.hpp"
#include "viz/words/sure_words.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::viz;
using namespace evenpull::sample;
using Catch::Matchers::Contains;

namespace {

Case joined(JointKind front, JointKind rear) {
  Case c = light_rudder(3);
  for (Rib& r : c.ribs) r.front_joint.kind = front, r.rear_joint.kind = rear;
  return c;
}

std::vector<JointLine> lines(const Case& c) { return joint_lines(c, build_panel(c, {coarse_nodes})); }

BoundRun bound(std::optional<JointEnd> joints, double use) {
  BoundRun b;
  b.worst_use = {use};
  b.joints = joints;
  return b;
}

}  // namespace

TEST_CASE("joints that are alike are one line, with their stiffness over the member's and its range") {
  const std::vector<JointLine> alike = lines(joined(JointKind::welded, JointKind::rigid));
  REQUIRE(alike.size() == 2);
  CHECK(alike[0].where == "ribs 1 to 4, leading edge");
  CHECK(alike[0].made == "welded");
  CHECK(alike[0].turns == "25 (8 to 100)");
  CHECK(alike[1].where == "ribs 1 to 4, trailing edge");
  CHECK(alike[1].turns.empty());
  Case c = joined(JointKind::welded, JointKind::rigid);
  c.ribs[1].front_joint = {JointKind::gusset, 2, 0.0024, 0.02};
  const std::vector<JointLine> one_differs = lines(c);
  REQUIRE(one_differs.size() == 4);
  CHECK(one_differs[1].where == "rib 2, leading edge");
  CHECK_THAT(one_differs[1].made, Contains("riveted gusset, 2 rivets a side of"));
  CHECK_THAT(one_differs[1].turns, Contains("up and down 0.02 (0.01 to 0.1), flat "));
  CHECK(one_differs[2].where == "ribs 3 to 4, leading edge");
}

TEST_CASE("a wire is listed neither among the joints nor among the sections: it turns freely and does not bend") {
  Case c = joined(JointKind::welded, JointKind::rigid);
  Brace wire;
  wire.name = "drag wire", wire.make = c.ribs[0].make, wire.to_member = 1, wire.to_rib = 1, wire.wire = true;
  c.braces = {wire};
  for (const JointLine& line : lines(c)) CHECK(line.where != "drag wire");
  for (const ShownSection& s : shown_sections(c)) CHECK_THAT(s.carriers, !Contains("drag wire"));
}

TEST_CASE("joints that were not stated are called so, with what they may be") {
  const JointLine line = lines(joined(JointKind::unstated, JointKind::rigid)).front();
  CHECK(line.made == "not stated");
  CHECK(line.turns == "rigid (0.2 to 100)");
  Plan plan;
  plan.the_case = aileron();
  note::JointsNotStated n;
  CHECK_THAT(note_text(plan, n), Contains("computed rigid. State `joints`."));
  n.computed = true, n.softest = 1.31, n.stiffest = 0.84;
  CHECK_THAT(note_text(plan, n), Contains("use 1.31 with the softest") && Contains("use 0.84 with the stiffest"));
  n.softest.reset();
  CHECK_THAT(note_text(plan, n), Contains("no balance, or the frame gives way, with the softest"));
}

TEST_CASE("bounds of joints are named beside those of ribs") {
  Plan plan;
  plan.the_case = aileron();
  plan.bounds = {bound({}, 0.8)};
  CHECK(bounds_title(plan) == "Bounds: inner ribs free or glued");
  plan.bounds.push_back(bound(JointEnd::softest, 1.2));
  plan.bounds.push_back(bound(JointEnd::stiffest, 0.7));
  CHECK(bounds_title(plan) == "Bounds: inner ribs free or glued, joints softest or stiffest");
  CHECK_THAT(bounds_in_words(plan)[1], Contains("joints at their softest: worst use 1.20"));
  CHECK_THAT(bounds_in_words(plan)[2], Contains("joints at their stiffest: worst use 0.70"));
}

TEST_CASE("a limit says what the worse joints make of its use, where they do") {
  LimitReading l;
  l.use = 0.9, l.use_plus_minus = 0.02;
  CHECK(use_text(l) == "0.90 ± 0.02");
  l.use_of_worse_joints = 0.9;
  CHECK(use_text(l) == "0.90 ± 0.02");
  l.use_of_worse_joints = 1.1;
  CHECK(use_text(l) == "0.90 ± 0.02; joints 1.10");
  InputWeight w;
  w.input = Unsure::joints;
  CHECK(spread_text(w) == "over their range");
}
