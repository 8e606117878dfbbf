// Wires that only pull (docs/model.md, section 5), against statics worked by hand: a bay of two pinned ribs between two
// edges, crossed by two wires of stiffness k at the angle phi to the span, racked along the span by F. With c = cos phi
//   both taut:   N = T +- F/2c         one slack, from F = 2cT on:   N = F/c   (derived here)
#include "solver/equilibrium/mechanism.hpp"
#include "solver/statement/errors.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double chord = 0.35, span = 0.30, steel = 205e9, diameter = 2e-3;

Brace wire(const std::string& name, int from_rib, int to_rib, double tightness) {
  Brace b;
  b.name = name;
  b.make.shape.outside_diameter = diameter;
  b.make.shape.wall = diameter / 2;
  b.make.material = 2;
  b.from_member = 0, b.from_rib = from_rib, b.to_member = 1, b.to_rib = to_rib;
  b.wire = true;
  b.tightness = tightness;
  return b;
}

// The leading edge stands still, the trailing edge may move along the span alone, the ribs are pinned: nothing but wires
// holds it there. The cloth lies loose.
Case racked_bay(std::vector<Brace> wires) {
  Case c = one_zone_a_bay(sample::light_rudder(1));
  c.outline.leading_edge = {{0, 0}, {0, span}};
  c.outline.trailing_edge = {{chord, 0}, {chord, span}};
  c.span_members[0].chord_fraction = 0;
  c.ribs.back().station = span;
  for (Rib& r : c.ribs) r.front_joint.kind = r.rear_joint.kind = JointKind::pinned;
  c.materials.push_back({"steel", steel, 79e9, 1e9, Strength::yield});
  c.braces = std::move(wires);
  Support front, back;
  front.whole_length = back.whole_length = true;
  front.hold = {true, true, true, true, true, true};
  back.member = 1;
  back.hold = {true, false, true, true, true, true};
  c.while_ironed = c.in_use = {front, back};
  return c;
}

std::vector<Brace> crossed(double tightness) { return {wire("out", 0, 1, tightness), wire("in", 1, 0, tightness)}; }

struct Racked {
  Model model;
  Covering state;
  Equilibrium solver;

  explicit Racked(const Case& c) : model(c, coarse(60)), state(laid_on(model)), solver(model, tight()) {
    check_stands(model);
    state.load = Eigen::VectorXd::Zero(model.unknowns.count);
    REQUIRE(solver.solve(state, {}, {}).converged);
  }
  void rack(double force) {
    for (int j : {model.panel.edge_joint.front(), model.panel.edge_joint.back()}) state.load[6 * j + 1] = force / 2;
    REQUIRE(solver.solve(state, {}, {}).converged);
  }
  std::vector<double> pulls() const { return read_off(model, state).wire_pulls; }
  double moved() const { return state.unknowns[6 * model.panel.edge_joint.back() + 1]; }
};

double complaint_length(const Case& c, const std::string& key) {
  try {
    check_stands(c);
  } catch (const CaseError& e) {
    CHECK(e.key == key);
    INFO(e.what());
    return static_cast<double>(std::string(e.what()).size());
  }
  return 0;
}

constexpr double hardly_tight = 2;  // N
const double cosine = span / std::hypot(span, chord);
const double rate = steel * M_PI * diameter * diameter / 4 / std::hypot(span, chord);

}  // namespace

TEST_CASE("of two crossed wires the one that is drawn on carries all and the other goes slack") {
  for (double force : {200.0, -200.0}) {
    Racked r(racked_bay(crossed(hardly_tight)));
    r.rack(force);
    const auto n = r.pulls();
    const std::size_t taut = force > 0 ? 0 : 1;
    CHECK(n[taut] == Approx(std::abs(force) / cosine).epsilon(1e-3));
    CHECK(n[1 - taut] == 0);
  }
}

TEST_CASE("a frame gives by what the one taut wire stretches") {
  Racked r(racked_bay(crossed(hardly_tight)));
  r.rack(200);
  CHECK(r.moved() == Approx((200 / cosine - hardly_tight) / (rate * cosine)).epsilon(2e-3));
}

TEST_CASE("wires drawn tight pull before any cloth is ironed what the case says") {
  Racked r(racked_bay(crossed(150)));
  for (double n : r.pulls()) CHECK(n == Approx(150).epsilon(2e-3));
}

TEST_CASE("two tight wires share a load until one of them is slack, and then no longer") {
  constexpr double tightness = 150;
  Racked r(racked_bay(crossed(tightness)));
  const double slack_from = 2 * cosine * tightness;
  r.rack(0.6 * slack_from);
  CHECK(r.pulls()[0] == Approx(1.6 * tightness).epsilon(2e-3));
  CHECK(r.pulls()[1] == Approx(0.4 * tightness).epsilon(5e-3));
  r.rack(2 * slack_from);
  CHECK(r.pulls()[0] == Approx(2 * slack_from / cosine).epsilon(2e-3));
  CHECK(r.pulls()[1] == 0);
}

TEST_CASE("a wire that went slack and came back pulls as before: it has an energy and no memory") {
  Racked r(racked_bay(crossed(150)));
  const auto before = r.pulls();
  const double at_rest = r.moved();
  for (double force : {500.0, -500.0, 0.0}) r.rack(force);
  for (std::size_t i = 0; i < before.size(); ++i) CHECK(r.pulls()[i] == Approx(before[i]).epsilon(1e-4));
  CHECK(r.moved() == Approx(at_rest).margin(1e-8));
}

TEST_CASE("the stress of a wire is its pull over its area, and it is never pushed") {
  Racked r(racked_bay(crossed(hardly_tight)));
  r.rack(200);
  const Readings read = read_off(r.model, r.state);
  const double allowed = 0.5 * 1e9, area = M_PI * diameter * diameter / 4;
  for (std::size_t i = 0; i < r.model.wires.size(); ++i) {
    CHECK(r.state.axial[r.model.wires[i].beam] >= 0);
    CHECK(read.beam_use[r.model.wires[i].beam] == Approx(read.wire_pulls[i] / area / allowed));
  }
}

TEST_CASE("a frame that stands by slack wires alone is refused, tight ones hold it") {
  CHECK(complaint_length(racked_bay({wire("alone", 0, 1, 0)}), "brace") > 0);
  CHECK(complaint_length(racked_bay(crossed(0)), "brace") > 0);
  CHECK(complaint_length(racked_bay({}), "supports.while_ironed") > 0);
  CHECK(complaint_length(racked_bay(crossed(hardly_tight)), "brace") == 0);
}

TEST_CASE("a wire against which nothing pulls cannot be tight") {
  CHECK_THROWS_AS(Model(racked_bay({wire("alone", 0, 1, 100)}), coarse(60)), CaseError);
}

TEST_CASE("a stiff frame hardly needs its wires: with them slack it reads as without them") {
  Case with = one_zone_a_bay(sample::light_rudder(2));
  Case without = with;
  with.materials.push_back({"steel", steel, 79e9, 1e9, Strength::yield});
  with.braces = {wire("out", 0, 1, 0), wire("in", 1, 0, 0)};
  // Hung a little too long: neither is drawn on.
  Job a(with, 150), b(without, 150);
  for (Wire& w : a.model.wires) w.at_rest = -1e5;
  Covering sa = a.ironing.begin(), sb = b.ironing.begin();
  REQUIRE(work(a, sa, one_side_first(a.panel()), 250, 1));
  REQUIRE(work(b, sb, one_side_first(b.panel()), 250, 1));
  CHECK(pull_apart(sa, sb) < 0.1);  // N/m
  for (double n : a.read(sa).wire_pulls) CHECK(n == 0);
}

TEST_CASE("wires across a panel that is ironed pull, and mirrored wires pull mirrored") {
  Case c = one_zone_a_bay(sample::light_rudder(2));
  c.materials.push_back({"steel", steel, 79e9, 1e9, Strength::yield});
  c.braces = {wire("a", 0, 1, 20), wire("b", 1, 0, 20), wire("c", 1, 2, 20), wire("d", 2, 1, 20)};
  Job j(c, 150, tight());
  const Panel& p = j.panel();
  Covering from_root = j.ironing.begin(), from_tip = from_root;
  const auto zone = [&](Side s, int bay) { return p.zone(s, bay, 0); };
  REQUIRE(work(j, from_root, {zone(Side::top, 0), zone(Side::bottom, 0), zone(Side::top, 1)}, 250, 1));
  REQUIRE(work(j, from_tip, {zone(Side::top, 1), zone(Side::bottom, 1), zone(Side::top, 0)}, 250, 1));
  const auto root = j.read(from_root).wire_pulls, tip = j.read(from_tip).wire_pulls;
  for (double n : root) CHECK(n >= 0);
  CHECK(*std::max_element(root.begin(), root.end()) > 5);
  CHECK(*std::min_element(root.begin(), root.end()) < 1);
  const std::size_t mirror[] = {3, 2, 1, 0};
  for (std::size_t i = 0; i < 4; ++i) CHECK(tip[mirror[i]] == Approx(root[i]).epsilon(1e-4).margin(1e-3));
}
