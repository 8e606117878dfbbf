// What is there only while the panel is ironed, and battens: closed forms of a beam, derived here.
//   trailing edge clamped at both ends, F amid:  w = F L^3/192 EI;  on a prop of rate k:  w = F/(192 EI/L^3 + k)
//   hinged rib under q:                          w = 5 q L^4/384 EI, with a batten beside it EI is the sum
#include "solver/equilibrium/holding.hpp"
#include "solver/equilibrium/mechanism.hpp"
#include "solver/statement/errors.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double chord = 0.35, span = 0.40,
                 force = 100;  // m, m, N: loose cloth pulls some hundredths of a newton beside it
constexpr double modulus = 68.9e9;
constexpr double bending = 8.2e-10;  // I of the edge [m^4]

MemberMake plain_make(double area, double inertia) {
  MemberMake m;
  m.shape.kind = SectionShape::Kind::properties;
  m.shape.given.area = area;
  m.shape.given.inertia_up = m.shape.given.inertia_flat = inertia;
  m.shape.given.torsion = 2 * inertia;
  m.shape.given.reach_up = m.shape.given.reach_flat = m.shape.given.reach_twist = 6e-3;
  m.material = 1;
  return m;
}

Support all_held(int member, double station, bool whole_length) {
  Support s;
  s.member = member, s.station = station, s.whole_length = whole_length;
  s.hold = {true, true, true, true, true, true};
  return s;
}

// One bay; the leading edge stands still, the trailing edge is clamped at both ends. The cloth lies loose.
Case held_bay() {
  Case c = one_zone_a_bay(sample::light_rudder(1));
  c.outline.leading_edge = {{0, 0}, {0, span}};
  c.outline.trailing_edge = {{chord, 0}, {chord, span}};
  c.span_members[0].chord_fraction = 0;
  c.span_members[1].make = plain_make(33e-6, bending);
  c.ribs.back().station = span;
  c.while_ironed = c.in_use = {all_held(0, 0, true), all_held(1, 0, false), all_held(1, span, false)};
  return c;
}

Brace prop_amid(double area) {
  Brace b;
  b.name = "prop";
  b.make = plain_make(area, 1e-12);
  b.to_member = 1;
  b.from_mid_bay = b.to_mid_bay = true;
  b.from_joint.kind = b.to_joint.kind = JointKind::pinned;
  b.comes_out = true;
  return b;
}

struct Pulled {
  Model model;
  Covering state;
  Equilibrium solver;
  SolveReport report;

  explicit Pulled(const Case& c) : model(c, coarse(400)), state(laid_on(model)), solver(model, tight()) {
    state.load = Eigen::VectorXd::Zero(model.unknowns.count);
  }
  int amid() const { return 6 * model.panel.edge_joint[model.panel.edge_joint.size() / 2]; }
  void pull() {
    state.load[amid()] = -force;
    settle();
  }
  void settle() {
    report = solver.solve(state, {}, {});
    REQUIRE(report.converged);
  }
  void take_out() {
    change_hands(model, Held::in_use, state);
    settle();
  }
  double moved() const { return -state.unknowns[amid()]; }
};

const double beam_rate = 192 * modulus * bending / (span * span * span);

// Hinged end ribs between two edges that are held; q on the first one.
Case hinged_ribs() {
  Case c = held_bay();
  c.while_ironed = c.in_use = {all_held(0, 0, true), all_held(1, 0, true)};
  for (Rib& r : c.ribs) {
    r.make = plain_make(33e-6, bending);
    r.front_joint.kind = r.rear_joint.kind = JointKind::pinned;
  }
  return c;
}

Batten on_first_rib(double inertia, bool comes_out) {
  Batten b;
  b.name = "batten";
  b.make = plain_make(700e-6, inertia);
  b.rib = 0;
  b.comes_out = comes_out;
  return b;
}

double bow_of_first_rib(Pulled& p, double q) {
  const FrameMember* rib = nullptr;
  for (const FrameMember& f : p.model.panel.members)
    if (!rib && f.role == MemberRole::end_rib) rib = &f;
  REQUIRE(rib);
  const auto x = [&](std::size_t k) { return p.model.panel.joints[rib->joints[k]].position.x(); };
  for (std::size_t k = 1; k + 1 < rib->joints.size(); ++k)
    p.state.load[6 * rib->joints[k] + 1] = q * (x(k + 1) - x(k - 1)) / 2;
  p.settle();
  double bow = 0;
  for (int j : rib->joints) bow = std::max(bow, std::abs(p.state.unknowns[6 * j + 1]));
  return bow;
}

}  // namespace

TEST_CASE("a propped edge gives as beam and prop together do, and as the beam alone once the prop is out", "[out]") {
  for (const double area : {1e-9, 1e-8, 1e-6}) {
    Case c = held_bay();
    c.braces = {prop_amid(area)};
    Pulled p(c);
    p.pull();
    CHECK(p.moved() == Approx(force / (beam_rate + modulus * area / chord)).epsilon(2e-3));
    p.take_out();
    CHECK(p.moved() == Approx(force / beam_rate).epsilon(2e-3));
  }
}

TEST_CASE("what comes out leaves an elastic frame exactly as if it had never been in", "[out]") {
  Case with = held_bay(), without = held_bay();
  with.braces = {prop_amid(1e-6)};
  Pulled p(with), bare(without);
  p.pull();
  p.take_out();
  bare.pull();
  CHECK(p.moved() == Approx(bare.moved()).epsilon(1e-6));
  CHECK(p.state.axial[static_cast<std::size_t>(p.model.panel.beams.size()) - 1] == 0);
}

// Clapeyron: strain energy is half of load times way, of the frame that is there.
TEST_CASE("the energy of what came out goes with it", "[out]") {
  Case c = held_bay();
  c.braces = {prop_amid(1e-8)};
  Pulled p(c);
  p.pull();
  CHECK(p.report.energy == Approx(force * p.moved() / 2).epsilon(1e-3));
  const double propped = p.report.energy;
  p.take_out();
  CHECK(p.report.energy == Approx(force * p.moved() / 2).epsilon(1e-3));
  CHECK(p.report.energy > propped);
}

TEST_CASE("a batten adds its bending to that of the rib beside it", "[out]") {
  constexpr double q = 40, batten_inertia = 2e-9;
  Case c = hinged_ribs();
  Pulled bare(c);
  const double alone = bow_of_first_rib(bare, q);
  const double length = chord;
  CHECK(alone == Approx(5 * q * std::pow(length, 4) / (384 * modulus * bending)).epsilon(0.03));  // few joints
  c.battens = {on_first_rib(batten_inertia, false)};
  Pulled stiff(c);
  CHECK(bow_of_first_rib(stiff, q) / alone == Approx(bending / (bending + batten_inertia)).epsilon(1e-3));
}

TEST_CASE("a batten that comes off leaves the rib to itself", "[out]") {
  constexpr double q = 40;
  Case c = hinged_ribs();
  Pulled bare(c);
  const double alone = bow_of_first_rib(bare, q);
  c.battens = {on_first_rib(2e-9, true)};
  Pulled p(c);
  CHECK(bow_of_first_rib(p, q) < 0.4 * alone);
  change_hands(p.model, Held::in_use, p.state);
  CHECK(bow_of_first_rib(p, q) == Approx(alone).epsilon(1e-6));
}

TEST_CASE("a batten passes on next to nothing along itself: the pull stays in the member", "[out]") {
  Case c = hinged_ribs();
  c.in_use[1].hold[0] = c.while_ironed[1].hold[0] = false;
  c.battens = {on_first_rib(2e-9, false)};
  Pulled p(c);
  const int corner = p.model.panel.edge_joint.front();
  p.state.load[6 * corner] = -force;
  p.settle();
  double rib = 0, batten = 0;
  for (std::size_t b = 0; b < p.model.panel.beams.size(); ++b) {
    const FrameMember& f = p.model.panel.members[static_cast<std::size_t>(p.model.panel.beams[b].member)];
    if (f.role == MemberRole::batten) batten = std::max(batten, std::abs(p.state.axial[b]));
    if (f.role == MemberRole::end_rib) rib = std::max(rib, std::abs(p.state.axial[b]));
  }
  CHECK(rib > 0.5 * force);
  CHECK(batten < 0.03 * rib);
}

TEST_CASE("a frame that stands by what comes out alone is refused for use", "[out]") {
  Case c = held_bay();
  // The edge hangs on two hinged ribs and may slide along the span: only a diagonal holds it there.
  for (Rib& r : c.ribs) r.front_joint.kind = r.rear_joint.kind = JointKind::pinned;
  Support back = all_held(1, 0, true);
  back.hold[1] = false;
  c.while_ironed = c.in_use = {all_held(0, 0, true), back};
  Brace diagonal = prop_amid(1e-6);
  diagonal.from_mid_bay = diagonal.to_mid_bay = false;
  diagonal.to_rib = 1;
  c.braces = {diagonal};
  try {
    check_stands(c);
    FAIL("it stands");
  } catch (const CaseError& e) {
    CHECK(e.key == "supports.in_use");
  }
  c.braces[0].comes_out = false;
  CHECK_NOTHROW(check_stands(c));
}

TEST_CASE("battened while it is ironed an end rib bows less, and springs in once the batten is off", "[out]") {
  Case c = one_zone_a_bay(sample::light_rudder(2));
  const auto bows = [](const Case& of) {
    Job j(of);
    Covering s = j.ironing.begin();
    REQUIRE(work(j, s, alternating(j.panel()), 300, 1));
    REQUIRE(j.ironing.settle(s, "settled").outcome == Outcome::settled);
    const double held = j.read(s).end_rib_bow.value;
    REQUIRE(j.ironing.release(s, "released").outcome == Outcome::settled);
    const Readings r = j.read(s);
    for (std::size_t b = 0; b < j.panel().beams.size(); ++b)
      if (j.panel().members[static_cast<std::size_t>(j.panel().beams[b].member)].comes_out) CHECK(r.beam_use[b] == 0);
    return std::pair(held, r.end_rib_bow.value);
  };
  const auto bare = bows(c);
  for (int rib : {0, 2}) {
    c.battens.push_back(on_first_rib(2e-8, true));
    c.battens.back().rib = rib;
  }
  const auto propped = bows(c);
  CHECK(propped.first < 0.5 * bare.first);
  CHECK(propped.second > 2 * propped.first);
  // Cloth held back by a stiffer frame comes to its pull with less shrink, and slackens when the rib springs in: it
  // ends no worse than cloth that drew a bare rib in.
  CHECK(propped.second < 1.02 * bare.second);
  CHECK(propped.second > 0.5 * bare.second);
}
