// A frame that can move freely is named before any cloth is shrunk (docs/model.md, section 5).
#include "solver/equilibrium/mechanism.hpp"
#include "solver/statement/errors.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

Mechanism found(const Case& c, Held h) { return find_mechanism(Model(c, coarse(150)), h); }

void pin(Rib& r) { r.front_joint.kind = r.rear_joint.kind = JointKind::pinned; }

bool stands(const Mechanism& m) { return !m.found && !m.soft; }

std::string complaint(const Case& c, const std::string& key) {
  try {
    check_stands(c);
  } catch (const CaseError& e) {
    CHECK(e.key == key);
    return e.what();
  }
  return "";
}

}  // namespace

TEST_CASE("a panel that is held well has no mechanism") {
  for (const Case& c : {sample::aileron(3, 0.9), sample::light_rudder(3)})
    for (Held h : {Held::while_ironed, Held::in_use}) CHECK(stands(found(c, h)));
}

TEST_CASE("hinges without a horn let the panel turn about the span, and that is said") {
  Case c = one_zone_a_bay(sample::aileron(3, 0.9));
  c.in_use.pop_back();
  const Mechanism m = found(c, Held::in_use);
  REQUIRE(m.found);
  CHECK(m.member >= 0);
  CHECK_FALSE(found(c, Held::while_ironed).found);
  Job j(c, 150);
  try {
    j.ironing.begin();
    FAIL("accepted");
  } catch (const CaseError& e) {
    CHECK(e.key == "supports.in_use");
    CHECK_THAT(e.what(), Catch::Matchers::Contains(j.panel().members[m.member].name));
    CHECK_THAT(e.what(), Catch::Matchers::Contains("freely"));
  }
}

TEST_CASE("hinges that all slide let the panel move along the span") {
  Case c = sample::aileron(3, 0.9);
  c.in_use[0].hold[1] = false;
  const Mechanism m = found(c, Held::in_use);
  REQUIRE(m.found);
  CHECK(m.motion == "moves along the span");
}

TEST_CASE("a panel without any support is found out, a clamp at one end is enough") {
  Case c = sample::aileron(3, 0.9);
  c.while_ironed.pop_back();
  CHECK_FALSE(found(c, Held::while_ironed).found);
  c.while_ironed.clear();
  CHECK(found(c, Held::while_ironed).found);
  Job j(one_zone_a_bay(c), 150);
  CHECK_THROWS_AS(j.ironing.begin(), CaseError);
}

TEST_CASE("inner ribs may have hinged ends; with all ribs hinged nothing holds the trailing edge") {
  Case c = sample::light_rudder(3);
  for (const int r : {1, 2}) pin(c.ribs[r]);
  for (Held h : {Held::while_ironed, Held::in_use}) CHECK_FALSE(found(c, h).found);
  for (Rib& r : c.ribs) pin(r);
  const Model m(c, coarse(150));
  const Mechanism loose = find_mechanism(m, Held::while_ironed);
  REQUIRE(loose.found);
  CHECK(loose.joint >= 0);
  CHECK(loose.member >= 0);
}

TEST_CASE("whether a frame stands does not depend on its size or on the stiffness of its material") {
  for (double by : {0.01, 0.1, 10.0, 100.0}) {
    const double material = by < 1 ? 1e-3 : 1e3;
    CAPTURE(by, material);
    for (Case c : {sample::aileron(2, 0.6), sample::light_rudder(2)}) {
      multiply_lengths(c, by);
      for (Material& m : c.materials) m.youngs_modulus *= material, m.shear_modulus *= material;
      Case hornless = c, sliding = c;
      hornless.in_use.pop_back();
      for (Support& s : sliding.in_use) s.hold[1] = false;
      CHECK_FALSE(found(c, Held::while_ironed).found);
      CHECK_FALSE(found(c, Held::in_use).found);
      CHECK(found(hornless, Held::in_use).motion == "turns about the span");
      CHECK(found(hornless, Held::in_use).found);
      CHECK(found(sliding, Held::in_use).found);
      CHECK(found(sliding, Held::in_use).motion == "moves along the span");
    }
  }
}

TEST_CASE("a motion without strain and the softest frame that stands are many powers of ten apart") {
  Case free = sample::aileron(3, 0.9);
  free.in_use.pop_back();
  CHECK(found(free, Held::in_use).strain < 1e-20);
  for (int bays : {3, 12})
    for (const Case& c : {sample::aileron(bays, 0.3 * bays), sample::light_rudder(bays)})
      for (Held h : {Held::while_ironed, Held::in_use}) CHECK(found(c, h).strain > 1e-12);
}

TEST_CASE("a frame that is held but soft is not called unsupported, and one of thread is called too soft by name") {
  Case c = sample::light_rudder(3);
  for (Material& m : c.materials) m.youngs_modulus *= 0.1, m.shear_modulus *= 0.1;
  for (Held h : {Held::while_ironed, Held::in_use}) CHECK(stands(found(c, h)));
  for (Material& m : c.materials) m.youngs_modulus *= 1e-6, m.shear_modulus *= 1e-6;
  const std::string said = complaint(c, "member");
  CHECK_THAT(said, Catch::Matchers::Contains("softly") && Catch::Matchers::Contains("section and the material"));
  CHECK_THAT(said, !Catch::Matchers::Contains("nothing holds"));
}

TEST_CASE("ribs as thin as thread are named as what gives way") {
  Case c = sample::light_rudder(3);
  MemberMake thread = c.ribs.front().make;
  thread.shape.outside_diameter = 0.05e-3;
  thread.shape.wall = 0.01e-3;
  for (Rib& r : c.ribs) r.make = thread;
  const Mechanism m = found(c, Held::while_ironed);
  CHECK_FALSE(m.found);
  REQUIRE(m.soft);
  CHECK_THAT(complaint(c, "ribs"), Catch::Matchers::Contains("rib ") && Catch::Matchers::Contains("softly"));
}

TEST_CASE("members practically in one place are named with their distance, not called unsupported") {
  for (double apart : {1e-12, 1e-7, 1e-4, 4e-3}) {
    Case c = sample::aileron(3, 0.9);
    SpanMember spar = c.span_members.front();
    spar.name = "spar";
    spar.role = SpanRole::spar;
    spar.make = c.ribs.front().make;
    spar.chord_fraction = 0.25 + apart;
    c.span_members.insert(c.span_members.begin() + 1, spar);
    const std::string said = complaint(c, "member");
    CHECK_THAT(said, Catch::Matchers::Contains("\"nose\" and \"spar\"") && Catch::Matchers::Contains("mm apart"));
  }
  Case ribs = sample::aileron(3, 0.9);
  ribs.ribs[2].station = ribs.ribs[1].station + 1e-6;
  CHECK_THAT(complaint(ribs, "ribs.stations"), Catch::Matchers::Contains("rib 2 and rib 3"));
}

TEST_CASE("a spar that a row of the mesh passes by a hair's breadth stands as it does elsewhere") {
  Case c = sample::aileron(3, 0.9);
  SpanMember spar = c.span_members.front();
  spar.name = "spar";
  spar.role = SpanRole::spar;
  spar.make = c.ribs.front().make;
  const Model m(c, coarse(150));
  // Fractions of the rows are those of the joints of a rib.
  const std::vector<int>& joints = m.panel.members[2].joints;
  const double row = m.panel.joints[joints[joints.size() / 2]].position.x() / c.outline.trailing_edge.front().x;
  const auto with_spar = [&](double fraction) {
    Case with = c;
    spar.chord_fraction = fraction;
    with.span_members.insert(with.span_members.begin() + 1, spar);
    return with;
  };
  for (Held h : {Held::while_ironed, Held::in_use}) {
    const Mechanism on_the_row = found(with_spar(row), h);
    CHECK(stands(on_the_row));
    for (double off : {1e-8, 1e-6, 1e-4}) {
      const Mechanism beside = found(with_spar(row + off), h);
      CHECK(stands(beside));
      CHECK(beside.stiffness == Approx(on_the_row.stiffness).epsilon(0.01));
    }
  }
}
