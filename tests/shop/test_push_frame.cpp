// The bare frame under a weight: what must hold of any linear frame, wires, and what is refused. Closed forms stand in
// tests/published/test_pushed_frame.cpp.
#include "shop/push_frame.hpp"
#include "solver/statement/errors.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

// Places between joints and at them, on members and ribs.
const std::vector<FramePlace> places{{false, 1, 0.73}, {false, 1, 1.2}, {true, 3, 0.11}, {false, 0, 0.44}};

std::vector<Pushed> each_pushed(const PushFrame& f, const Case& c, double newtons, const FrameChange& change = {}) {
  std::vector<PushLoad> loads;
  for (int i = 0; i < static_cast<int>(places.size()); ++i) loads.push_back({i, newtons});
  return f.push(c, change, loads, true);
}

}  // namespace

TEST_CASE("a weight here moves there what a weight there moves here") {
  // Maxwell's reciprocity.
  const Case c = sample::aileron();
  PushFrame f(c, Held::while_ironed);
  f.set_places(places);
  const auto pushed = each_pushed(f, c, 10);
  for (std::size_t i = 0; i < places.size(); ++i) {
    CHECK(pushed[i].down[i] > 0);
    for (std::size_t j = 0; j < i; ++j) CHECK(pushed[i].down[j] == Approx(pushed[j].down[i]).epsilon(1e-6));
  }
}

TEST_CASE(
    "twice the weight moves the frame twice as far, twice the stiffness half as far, stress with the weight alone") {
  const Case c = sample::aileron();
  PushFrame f(c, Held::while_ironed);
  f.set_places(places);
  FrameChange stiff;
  stiff.stiffness.fill(2);
  const auto once = each_pushed(f, c, 10), twice = each_pushed(f, c, 20), stiffer = each_pushed(f, c, 10, stiff);
  for (std::size_t i = 0; i < places.size(); ++i) {
    CHECK(twice[i].use == Approx(2 * once[i].use));
    CHECK(stiffer[i].use == Approx(once[i].use));
    for (std::size_t j = 0; j < places.size(); ++j) {
      CHECK(twice[i].down[j] == Approx(2 * once[i].down[j]));
      CHECK(stiffer[i].down[j] == Approx(0.5 * once[i].down[j]));
    }
  }
}

TEST_CASE("a place between joints moves the same whatever the mesh") {
  // Beams of one section are exact at any length; the nose and ribs of this one are stepped along a taper.
  Case c = sample::light_rudder();
  PushFrame coarse(c, Held::while_ironed, 100), fine(c, Held::while_ironed, 1500);
  coarse.set_places(places), fine.set_places(places);
  const auto a = each_pushed(coarse, c, 10), b = each_pushed(fine, c, 10);
  for (std::size_t i = 0; i < places.size(); ++i)
    for (std::size_t j = 0; j < places.size(); ++j) CHECK(a[i].down[j] == Approx(b[i].down[j]).epsilon(1e-3));
}

TEST_CASE("a support that gives adds its give to a weight that stands on it") {
  Case c = sample::light_rudder();
  PushFrame f(c, Held::while_ironed);
  f.set_places(places);
  const double firm = each_pushed(f, c, 10)[0].down[0];
  for (Support& s : c.while_ironed) s.give = 1e-5;
  PushFrame gives(c, Held::while_ironed);
  gives.set_places(places);
  CHECK(each_pushed(gives, c, 10)[0].down[0] > firm);
  for (Support& s : c.while_ironed) s.give = 1e-12;  // next to nothing
  CHECK(each_pushed(PushFrame(gives), c, 10)[0].down[0] == Approx(firm).epsilon(1e-3));
}

TEST_CASE("a wire holds where it is drawn out and hangs slack where it is pushed together") {
  // Front high, rear low: the trailing edge draws the wire out where it goes down.
  Case c = sample::light_rudder();
  Brace wire;
  wire.name = "wire", wire.wire = true;
  wire.make.shape.kind = SectionShape::Kind::tube;
  wire.make.shape.outside_diameter = 2e-3, wire.make.shape.wall = 1e-3;
  wire.from_joint.kind = wire.to_joint.kind = JointKind::pinned;
  wire.from_member = 0, wire.from_rib = 1;
  wire.to_member = static_cast<int>(c.span_members.size()) - 1, wire.to_rib = 2;
  c.braces.push_back(wire);
  c.profile = {{0, 0.04, 0.01}, {1, 0.006, 0.006}};
  PushFrame f(c, Held::while_ironed);
  f.set_places(places);
  const auto up = f.push(c, {}, {{0, -10}}), down = f.push(c, {}, {{0, 10}});
  CHECK(up[0].slack == std::vector<int>{0});
  CHECK(down[0].slack.empty());
  CHECK(-up[0].down[0] != Approx(down[0].down[0]).epsilon(1e-6));
  // Drawn tight enough it holds both ways, and the frame answers alike.
  c.braces.back().tightness = 200;
  const auto tight = f.push(c, {}, {{0, -10}});
  CHECK(tight[0].slack.empty());
  CHECK(-tight[0].down[0] == Approx(down[0].down[0]));
}

TEST_CASE("the frame of a longer wing is not pushed, and a place in no member is not there") {
  Case c = sample::aileron();
  PushFrame f(c, Held::while_ironed);
  CHECK(f.has({false, 1, 0.9}));
  CHECK_FALSE(f.has({false, 1, 2.5}));
  CHECK_FALSE(f.has({true, 2, f.rib_length(2) + 0.01}));
  CHECK(f.has({true, 2, f.rib_length(2) - 1e-9}));
  CHECK_FALSE(f.moves({false, 0, 0}));
  CHECK(f.moves({false, 1, 0.9}));
  c.cloth_goes_on_outboard = true;
  CHECK_THROWS_AS(PushFrame(c, Held::while_ironed), CaseError);
}
